// The pages that are looked at: every command, in both systems of units, and inputs that mean harm.
import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';

// A name and values that would be markup, turn the direction of writing or end a comment if anything let them.
const hostileName = '<img src=x onerror=alert(1)> \u202Elmth.]]>--><!-- "\'&amp;.toml';
const hostileTable = `
[calibration]
date = "2026-11-20"
runs = ["</script><script>alert(1)</script><img src=x onerror=alert(2)> ]]>, 2026-11-20, f4147bffa632473f"]
use = "all"
"honey.lot_factor" = "1.1 x/ 1.17"
`;

export const cases = [
  { name: 'strain', args: ['strain'] },
  { name: 'strain-us-through', args: ['strain', '--set', 'gate.opening=20%', '--units', 'us'] },
  { name: 'strain-long', args: ['strain', '--set', 'debris.load=20 g/kg', '--set', 'scraping.at_pond_depth=60 mm', '--set', 'gate.opening=["0 min 40%","1 min 5%","3 min 60%"]'] },
  { name: 'strain-hostile', args: ['strain', hostileName, '--set', 'gate.opening=20%'] },
  { name: 'risk', args: ['risk', '--runs', '2048'] },
  { name: 'risk-us-hostile', args: ['risk', hostileName, '--runs', '2048', '--tolerance', '20%', '--units', 'us'] },
  { name: 'warm', args: ['warm'] },
  { name: 'warm-us-missed', args: ['warm', '--set', 'thermostat.setpoint=36 °C', '--set', 'until.coldest=39 °C', '--set', 'until.longest=5 h', '--set', 'warming.granulation=fine', '--units', 'us'] },
  { name: 'setpoint', args: ['setpoint'] },
  { name: 'setpoint-us-none', args: ['setpoint', '--set', 'limits.longest=1 h', '--units', 'us'], exit: 12 },
  { name: 'settle', args: ['settle'] },
  { name: 'fill-us', args: ['fill', '--units', 'us'] },
  { name: 'plan', args: ['plan'] },
  { name: 'plan-us-slow', args: ['plan', '--pace', 'slow', '--units', 'us'], exit: 15 },
  { name: 'fit', args: ['fit', 'pail.csv', '--batch', 'spring.toml', '--no-sampler'] },
];

/** Makes the pages in a folder; each case gets its file. */
export function make(folder, flowsim) {
  const run = (args, wanted = 0) => {
    try {
      execFileSync('dotnet', [flowsim, ...args], { cwd: folder, stdio: ['ignore', 'ignore', 'pipe'] });
      if (wanted !== 0) throw new Error(`flowsim ${args.join(' ')}: exit 0 and not ${wanted}`);
    } catch (failed) {
      if (failed.status !== wanted) throw failed;
    }
  };
  run(['new', 'spring.toml']);
  fs.writeFileSync(path.join(folder, hostileName), fs.readFileSync(path.join(folder, 'spring.toml'), 'utf8').replace(/^\[calibration\]$/m, '# a table of its own below') + hostileTable);
  return cases.map(({ name, args, exit }) => {
    const file = path.join(folder, `${name}.html`);
    run([...args, '--quiet', '--report', `${name}.html`], exit);
    return { name, file, hostile: name.includes('hostile') };
  });
}
