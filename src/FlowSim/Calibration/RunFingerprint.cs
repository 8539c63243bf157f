using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace FlowSim.Calibration;

/// <summary>Tells runs apart by their readings: whatever the file is called, the same readings give the same digits.</summary>
internal static class RunFingerprint
{
    private const int Digits = 16;

    /// <summary>The first digits of the SHA-256 hash of quantities, times and values.</summary>
    /// <param name="run">Run.</param>
    public static string Of(TimedRun run)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        Span<byte> room = stackalloc byte[16];
        foreach (TimedSeries series in run.Series)
        {
            hash.AppendData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{series.Quantity}:{series.Readings.Count};")));
            foreach (TimedReading reading in series.Readings)
            {
                // Rounded, so that a file in other units still is the same run.
                BinaryPrimitives.WriteInt64LittleEndian(room, (long)Math.Round(reading.At.Seconds * 1000));
                BinaryPrimitives.WriteInt64LittleEndian(room[8..], (long)Math.Round(reading.Value * 1e7));
                hash.AppendData(room);
            }
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..Digits];
    }

    /// <summary>The same of a measured viscosity.</summary>
    /// <param name="spot">Measurement.</param>
    public static string Of(ViscositySpot spot)
    {
        string text = string.Create(CultureInfo.InvariantCulture, $"viscosity:{spot.Name}:{spot.Temperature.Kelvins:0.00}:{spot.Viscosity.PascalSeconds:g6}:{spot.LogStandardDeviation:g3}");
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..Digits];
    }
}
