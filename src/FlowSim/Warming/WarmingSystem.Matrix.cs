using System.Numerics;

namespace FlowSim.Warming;

/// <summary>
/// The matrix of the equations as three factors: heat moved in radius, in height, and by the body. In the unknowns
/// w = v/C (rates of temperature) each line of the first two is a symmetric tridiagonal system.
/// </summary>
internal sealed partial class WarmingSystem
{
    private readonly KeptMatrix _matrix;

    /// <inheritdoc/>
    public void KeepMatrix()
    {
        KeptMatrix m = _matrix;
        _radial.CopyTo(m.Radial, 0);
        _axial.CopyTo(m.Axial, 0);
        _capacity.CopyTo(m.Capacity, 0);
        Array.Clear(m.SideLeak);
        Array.Clear(m.EndLeak);
        double toBody = 0;
        int last = (_nr - 1) * _nz;
        for (int k = 0; k < _nz; k++)
        {
            m.SideToBody[k] = _sideToBody[k];
            m.SideToRoom[k] = _sideToRoom[k];
            m.Element[k] = _element[k];
            m.SideLeak[last + k] += _sideToBody[k] + _sideToRoom[k];
            m.SideLeak[k] += _element[k];
            toBody += _sideToBody[k] + _element[k];
        }

        for (int i = 0; i < _nr; i++)
        {
            m.Floor[i] = _floor[i];
            m.Top[i] = _top[i];
            m.EndLeak[i * _nz] += _floor[i];
            m.EndLeak[i * _nz + _nz - 1] += _top[i];
            toBody += (_p.Contacts.FloorFacesBody ? _floor[i] : 0) + (_p.Contacts.TopFacesBody ? _top[i] : 0);
        }

        m.ToBody = toBody;
    }

    /// <inheritdoc/>
    public void Factor(double gammaStep)
    {
        KeptMatrix m = _matrix;
        m.GammaStep = gammaStep;
        Vector<double> gamma = new(gammaStep);
        int width = Vector<double>.Count;

        // In radius: all lines side by side.
        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz, k = 0;
            for (; k <= _nz - width; k += width)
            {
                int c = row + k;
                Vector<double> sum = new(m.SideLeak, c);
                Vector<double> pivot = new(m.Capacity, c);
                if (i + 1 < _nr)
                    sum += new Vector<double>(m.Radial, c);
                if (i > 0)
                {
                    Vector<double> inner = new(m.Radial, c - _nz), off = gamma * inner;
                    sum += inner;
                    pivot -= off * off * new Vector<double>(m.RadialPivot, c - _nz);
                }

                (Vector<double>.One / (pivot + gamma * sum)).CopyTo(m.RadialPivot, c);
            }

            for (; k < _nz; k++)
            {
                int c = row + k;
                double sum = m.SideLeak[c] + (i + 1 < _nr ? m.Radial[c] : 0), pivot = m.Capacity[c];
                if (i > 0)
                {
                    double inner = m.Radial[c - _nz], off = gammaStep * inner;
                    sum += inner;
                    pivot -= off * off * m.RadialPivot[c - _nz];
                }

                m.RadialPivot[c] = 1 / (pivot + gammaStep * sum);
            }
        }

        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz;
            double below = 0, lastPivot = 0;
            for (int k = 0; k < _nz; k++)
            {
                int c = row + k;
                double above = k + 1 < _nz ? m.Axial[c] : 0;
                double off = gammaStep * below;
                lastPivot = 1 / (m.Capacity[c] + gammaStep * (m.EndLeak[c] + above + below) - off * off * lastPivot);
                m.AxialPivot[c] = lastPivot;
                below = above;
            }
        }
    }

    /// <inheritdoc/>
    public void Solve(Span<double> rightHandSide)
    {
        SolveInRadius(rightHandSide);
        SolveInHeight(rightHandSide);
        SolveBody(rightHandSide);
    }

    private void SolveInRadius(Span<double> v)
    {
        KeptMatrix m = _matrix;
        double gamma = m.GammaStep;
        Span<double> w = m.Work;
        int width = Vector<double>.Count;
        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz, k = 0;
            for (; k <= _nz - width; k += width)
            {
                int c = row + k;
                Vector<double> right = new(v[c..]);
                if (i > 0)
                    right += gamma * new Vector<double>(m.Radial, c - _nz) * new Vector<double>(w[(c - _nz)..]);
                (right * new Vector<double>(m.RadialPivot, c)).CopyTo(w[c..]);
            }

            for (; k < _nz; k++)
            {
                int c = row + k;
                w[c] = (v[c] + (i > 0 ? gamma * m.Radial[c - _nz] * w[c - _nz] : 0)) * m.RadialPivot[c];
            }
        }

        for (int i = _nr - 1; i >= 0; i--)
        {
            int row = i * _nz, k = 0;
            for (; k <= _nz - width; k += width)
            {
                int c = row + k;
                Vector<double> rate = new(w[c..]);
                if (i + 1 < _nr)
                {
                    rate += gamma * new Vector<double>(m.Radial, c) * new Vector<double>(m.RadialPivot, c) * new Vector<double>(w[(c + _nz)..]);
                    rate.CopyTo(w[c..]);
                }

                (rate * new Vector<double>(m.Capacity, c)).CopyTo(v[c..]);
            }

            for (; k < _nz; k++)
            {
                int c = row + k;
                if (i + 1 < _nr)
                    w[c] += gamma * m.Radial[c] * m.RadialPivot[c] * w[c + _nz];
                v[c] = w[c] * m.Capacity[c];
            }
        }

        // What the cells' change draws from body and room.
        double body = 0, room = 0;
        int last = (_nr - 1) * _nz;
        for (int k = 0; k < _nz; k++)
        {
            body += m.SideToBody[k] * w[last + k] + m.Element[k] * w[k];
            room += m.SideToRoom[k] * w[last + k];
        }

        PassOn(v, gamma * _p.Vessels * body, gamma * _p.Vessels * room);
    }

    private void SolveInHeight(Span<double> v)
    {
        KeptMatrix m = _matrix;
        double gamma = m.GammaStep;
        Span<double> w = m.Work;
        double floor = 0, top = 0;
        for (int i = 0; i < _nr; i++)
        {
            int row = i * _nz;
            double rate = 0;
            for (int k = 0; k < _nz; k++)
            {
                int c = row + k;
                rate = (v[c] + (k > 0 ? gamma * m.Axial[c - 1] * rate : 0)) * m.AxialPivot[c];
                w[c] = rate;
            }

            top += m.Top[i] * rate;
            for (int k = _nz - 1; k >= 0; k--)
            {
                int c = row + k;
                rate = k + 1 < _nz ? w[c] + gamma * m.Axial[c] * m.AxialPivot[c] * rate : rate;
                v[c] = rate * m.Capacity[c];
            }

            floor += m.Floor[i] * rate;
        }

        double body = (_p.Contacts.FloorFacesBody ? floor : 0) + (_p.Contacts.TopFacesBody ? top : 0);
        PassOn(v, gamma * _p.Vessels * body, gamma * _p.Vessels * (floor + top - body));
    }

    /// <summary>A warmer cell gives to the room, and takes less from the body or, if that is held, from the heater.</summary>
    private void PassOn(Span<double> v, double body, double room)
    {
        v[ToRoom] += room;
        if (BodyIsSet)
            v[FromHeater] -= body;
        else
            v[Body] += body;
    }

    private void SolveBody(Span<double> v)
    {
        KeptMatrix m = _matrix;
        double gamma = m.GammaStep;
        if (_p.LagS > 0)
            v[Probe] /= 1 + gamma / _p.LagS;
        if (BodyIsSet)
            return;

        double rate = v[Body] / (_p.BodyJPerK + gamma * (_p.Vessels * m.ToBody + _p.BodyLossWPerK));
        v[Body] = rate * _p.BodyJPerK;
        v[ToRoom] += gamma * _p.BodyLossWPerK * rate;
        int last = (_nr - 1) * _nz;
        for (int k = 0; k < _nz; k++)
        {
            v[last + k] += gamma * m.SideToBody[k] * rate;
            v[k] += gamma * m.Element[k] * rate;
        }

        for (int i = 0; i < _nr; i++)
        {
            if (_p.Contacts.FloorFacesBody)
                v[i * _nz] += gamma * m.Floor[i] * rate;
            if (_p.Contacts.TopFacesBody)
                v[i * _nz + _nz - 1] += gamma * m.Top[i] * rate;
        }
    }

    /// <summary>What the matrix needs of the point it was kept at, and its factors.</summary>
    private sealed class KeptMatrix(int radialCells, int axialCells)
    {
        public readonly double[] Radial = new double[radialCells * axialCells];
        public readonly double[] Axial = new double[radialCells * axialCells];
        public readonly double[] Capacity = new double[radialCells * axialCells];
        public readonly double[] SideLeak = new double[radialCells * axialCells];
        public readonly double[] EndLeak = new double[radialCells * axialCells];
        public readonly double[] RadialPivot = new double[radialCells * axialCells];
        public readonly double[] AxialPivot = new double[radialCells * axialCells];
        public readonly double[] Work = new double[radialCells * axialCells];
        public readonly double[] SideToBody = new double[axialCells];
        public readonly double[] SideToRoom = new double[axialCells];
        public readonly double[] Element = new double[axialCells];
        public readonly double[] Floor = new double[radialCells];
        public readonly double[] Top = new double[radialCells];

        public double ToBody { get; set; }

        public double GammaStep { get; set; }
    }
}
