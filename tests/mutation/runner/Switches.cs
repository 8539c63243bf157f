using System.Reflection;
using Mono.Cecil;
using Mono.Cecil.Cil;
using Mono.Cecil.Rocks;

namespace FlowSim.Mutation;

/// <summary>The switches of a library that holds all its changes at once: which of them is on, and which were asked for.</summary>
/// <remarks>
/// Stryker compiles every change into one library and asks <c>MutantControl.IsActive(id)</c> where it would come in. That method takes a lock while it looks
/// which changes a test comes to; here it becomes <c>if (Active &lt; 0) Hits[id] = 1; return id == Active;</c>, which a compiler puts in line. Of changes that
/// are not looked at <c>false</c> is left, which it takes out: a library with a switch at every step is slow.
/// </remarks>
internal sealed class Switches
{
    /// <summary>No change is on; those asked for are noted.</summary>
    public const int None = -1;

    private readonly FieldInfo _active;
    private readonly byte[] _hits;

    /// <summary>The switches of a loaded library that <see cref="Rewrite"/> has written.</summary>
    /// <param name="library">The library.</param>
    /// <param name="count">One more than the highest number of a change.</param>
    public Switches(Assembly library, int count)
    {
        Type control = library.GetTypes().Single(type => type.Name == "MutantControl");
        _active = control.GetField("Active")!;
        _hits = new byte[count];
        control.GetField("Hits")!.SetValue(null, _hits);
    }

    /// <summary>The change that is on.</summary>
    public int Active
    {
        set => _active.SetValue(null, value);
    }

    /// <summary>The changes asked for since this was last called.</summary>
    public int[] TakeHits()
    {
        int[] hits = [.. Enumerable.Range(0, _hits.Length).Where(id => _hits[id] != 0)];
        Array.Clear(_hits);
        return hits;
    }

    /// <summary>Writes a library of Stryker's with the method in question replaced.</summary>
    /// <param name="from">The library.</param>
    /// <param name="to">Where to write it.</param>
    /// <param name="kept">The changes that are looked at.</param>
    public static void Rewrite(string from, string to, IReadOnlySet<int> kept)
    {
        using AssemblyDefinition library = AssemblyDefinition.ReadAssembly(from);
        // Stryker asks for code that can be stepped through; without that wish it is made to be quick.
        foreach (CustomAttribute wish in library.CustomAttributes.Where(attribute => attribute.AttributeType.Name == nameof(System.Diagnostics.DebuggableAttribute)).ToArray())
            library.CustomAttributes.Remove(wish);
        foreach (MethodDefinition method in library.MainModule.GetTypes().SelectMany(type => type.Methods).Where(method => method.HasBody))
        {
            method.Body.SimplifyMacros(); // Or small numbers would stand in the instructions themselves.
            foreach (Instruction call in method.Body.Instructions.Where(IsQuestion))
            {
                if (call.Previous.Operand is not int id)
                    throw new InvalidOperationException($"{method.FullName} asks for a change without its number.");
                if (kept.Contains(id))
                    continue;
                (call.Previous.OpCode, call.Previous.Operand) = (OpCodes.Nop, null);
                (call.OpCode, call.Operand) = (OpCodes.Ldc_I4_0, null);
            }
        }

        TypeDefinition control = library.MainModule.Types.Single(type => type.Name == "MutantControl");
        TypeSystem types = library.MainModule.TypeSystem;
        const Mono.Cecil.FieldAttributes Shared = Mono.Cecil.FieldAttributes.Public | Mono.Cecil.FieldAttributes.Static;
        var hits = new FieldDefinition("Hits", Shared, new ArrayType(types.Byte));
        var active = new FieldDefinition("Active", Shared, types.Int32);
        control.Fields.Add(hits);
        control.Fields.Add(active);
        Mono.Cecil.Cil.MethodBody body = control.Methods.Single(method => method.Name == "IsActive").Body;
        body.Instructions.Clear();
        body.ExceptionHandlers.Clear();
        body.Variables.Clear();
        ILProcessor code = body.GetILProcessor();
        Instruction compare = code.Create(OpCodes.Ldarg_0);
        code.Emit(OpCodes.Ldsfld, active);
        code.Emit(OpCodes.Ldc_I4_0);
        code.Emit(OpCodes.Bge, compare);
        // Written once only: threads that write one after the other to one line of the cache would wait for each other.
        code.Emit(OpCodes.Ldsfld, hits);
        code.Emit(OpCodes.Ldarg_0);
        code.Emit(OpCodes.Ldelem_U1);
        code.Emit(OpCodes.Brtrue, compare);
        code.Emit(OpCodes.Ldsfld, hits);
        code.Emit(OpCodes.Ldarg_0);
        code.Emit(OpCodes.Ldc_I4_1);
        code.Emit(OpCodes.Stelem_I1);
        code.Append(compare);
        code.Emit(OpCodes.Ldsfld, active);
        code.Emit(OpCodes.Ceq);
        code.Emit(OpCodes.Ret);
        library.Write(to);
    }

    private static bool IsQuestion(Instruction instruction) =>
        instruction.Operand is MethodReference { Name: "IsActive", DeclaringType.Name: "MutantControl" } && instruction.OpCode == OpCodes.Call;
}
