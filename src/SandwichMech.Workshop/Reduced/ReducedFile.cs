using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using SandwichMech.Core.Plates;
using SandwichMech.Core.Plates.Reduced;

namespace SandwichMech.Workshop.Reduced;

/// <summary>A reduced model as a file: a mark with the format's version, the SHA-256 of what follows, then the key and all numbers.</summary>
/// <remarks>Whatever is not exactly such a file, damaged, cut short or of another version, reads as nothing.</remarks>
public static class ReducedFile
{
    private const int Format = 2;
    private const int HeadLength = 8 + SHA256.HashSizeInBytes;
    private static readonly byte[] Mark = Encoding.ASCII.GetBytes("SMRP");

    /// <summary>The file's bytes.</summary>
    /// <param name="key">The model's name.</param>
    /// <param name="content">The model.</param>
    /// <returns>All of the file.</returns>
    public static byte[] Bytes(string key, ReducedContent content)
    {
        using var memory = new MemoryStream();
        using (var writer = new BinaryWriter(memory))
        {
            writer.Write(key);
            Write(writer, content);
        }

        byte[] body = memory.ToArray(), bytes = new byte[HeadLength + body.Length];
        Mark.CopyTo(bytes, 0);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), Format);
        SHA256.HashData(body, bytes.AsSpan(8));
        body.CopyTo(bytes, HeadLength);
        return bytes;
    }

    /// <summary>What a file holds.</summary>
    /// <param name="bytes">All of the file.</param>
    /// <param name="key">The model's name.</param>
    /// <returns>The model, where the file is whole and belongs to the name; otherwise nothing.</returns>
    public static ReducedContent? Read(byte[] bytes, string key)
    {
        if (bytes.Length <= HeadLength || !bytes.AsSpan(0, 4).SequenceEqual(Mark)
            || BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(4)) != Format
            || !SHA256.HashData(bytes.AsSpan(HeadLength)).AsSpan().SequenceEqual(bytes.AsSpan(8, SHA256.HashSizeInBytes)))
        {
            return null;
        }

        using var reader = new BinaryReader(new MemoryStream(bytes, HeadLength, bytes.Length - HeadLength));
        return reader.ReadString() == key ? Content(reader) : null;
    }

    private static void Write(BinaryWriter writer, ReducedContent c)
    {
        Write(writer, c.Range.Inputs, i =>
        {
            writer.Write(i.Input);
            writer.Write(i.Low);
            writer.Write(i.High);
        });
        writer.Write(c.Modes);
        writer.Write(c.Accuracy);
        writer.Write(c.ErrorPerTail);
        Write(writer, c.MeshErrors.ToArray());
        Write(writer, c.Stations, s =>
        {
            Write(writer, s.Regions, writer.Write);
            writer.Write(s.At.X);
            writer.Write(s.At.Y);
        });
        foreach (IReadOnlyList<CoefficientTerm> terms in new[] { c.Stiffness, c.Inertia })
        {
            Write(writer, terms, t =>
            {
                writer.Write(t.Station);
                writer.Write(t.First);
                writer.Write(t.Second);
            });
        }

        Write(writer, c.Parts, p =>
        {
            writer.Write(p.Modes);
            writer.Write(p.Rigid);
            writer.Write(p.Flexible);
            writer.Write(p.Tail);
            Write(writer, p.StiffnessMatrices, m => Write(writer, m));
            Write(writer, p.InertiaMatrices, m => Write(writer, m));
            Write(writer, p.Air);
            Write(writer, p.Movements, m => Write(writer, m));
        });
        writer.Write(c.Report.Solves);
        writer.Write(c.Report.Unknowns);
        writer.Write(c.Report.WorstError);
        writer.Write(c.Report.LastError);
    }

    private static ReducedContent Content(BinaryReader r) => new()
    {
        Range = new(List(r, () => new InputRange(r.ReadString(), r.ReadDouble(), r.ReadDouble()))),
        Modes = r.ReadInt32(),
        Accuracy = r.ReadDouble(),
        ErrorPerTail = r.ReadDouble(),
        MeshErrors = Numbers<double>(r),
        Stations = List(r, () => new SectionPlace(List(r, r.ReadInt32), new(r.ReadDouble(), r.ReadDouble()))),
        Stiffness = List(r, () => new CoefficientTerm(r.ReadInt32(), r.ReadInt32(), r.ReadInt32())),
        Inertia = List(r, () => new CoefficientTerm(r.ReadInt32(), r.ReadInt32(), r.ReadInt32())),
        Parts = List(r, () => new ReducedPart
        {
            Modes = r.ReadInt32(),
            Rigid = r.ReadInt32(),
            Flexible = r.ReadInt32(),
            Tail = r.ReadInt32(),
            StiffnessMatrices = List(r, () => Numbers<float>(r)),
            InertiaMatrices = List(r, () => Numbers<float>(r)),
            Air = Numbers<float>(r),
            Movements = List(r, () => Numbers<double>(r)),
        }),
        Report = new(r.ReadInt32(), r.ReadInt32(), r.ReadDouble(), r.ReadDouble()),
    };

    private static void Write<T>(BinaryWriter writer, IReadOnlyList<T> list, Action<T> one)
    {
        writer.Write(list.Count);
        foreach (T item in list) { one(item); }
    }

    private static void Write<T>(BinaryWriter writer, T[] values)
        where T : unmanaged
    {
        writer.Write(values.Length);
        writer.Write(MemoryMarshal.AsBytes<T>(values));
    }

    private static T[] List<T>(BinaryReader reader, Func<T> one)
    {
        var list = new T[reader.ReadInt32()];
        for (int i = 0; i < list.Length; i++) { list[i] = one(); }
        return list;
    }

    private static T[] Numbers<T>(BinaryReader reader)
        where T : unmanaged
    {
        var values = new T[reader.ReadInt32()];
        reader.BaseStream.ReadExactly(MemoryMarshal.AsBytes(values.AsSpan()));
        return values;
    }
}
