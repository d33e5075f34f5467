package moisture

import "math"

const (
	maxPoints = MaxSlices + 1
	noLayer   = -1
)

// grid is an assembly cut into slices. A point is a slice boundary, with its
// own temperature; a node is a place on the vapour path, with its own
// pressure. Points without vapour resistance between them share a node.
type grid struct {
	points  int // points in use, 0 = inside surface
	last    int // index of the outermost node
	layers  int
	rTotal  float64
	rTo     [maxPoints]float64 // m2K/W from the room to the point
	node    [maxPoints]int     // node of each point
	innerOf [maxPoints]int     // layer on the room side of the point
	outerOf [maxPoints]int     // layer on the far side
	sdWetM  [maxPoints]float64 // sd from the inside surface to the node
	sdDryM  [maxPoints]float64 // the same with the drying values
	first   [maxPoints]int     // first point of each node
	judged  [maxPoints]bool    // per node: something sensitive touches it
	between [MaxLayers + 1]int // point between layer i-1 and layer i
	opens   bool               // some layer has a drying value of its own
}

// cut lays the grid over the layers.
func (g *grid) cut(layers []Layer, rsi, rse float64) error {
	if len(layers) == 0 || len(layers) > MaxLayers {
		return refuse(ErrTooMany, "layers", float64(len(layers)))
	}
	if err := checkSurfaces(rsi, rse); err != nil {
		return err
	}
	*g = grid{points: 1, layers: len(layers), rTotal: rsi}
	g.rTo[0] = rsi
	g.innerOf[0], g.outerOf[0] = noLayer, 0
	for i, l := range layers {
		if err := l.check(); err != nil {
			return err
		}
		if err := g.add(i, l); err != nil {
			return err
		}
	}
	g.outerOf[g.points-1] = noLayer
	g.rTotal = g.rTo[g.points-1] + rse
	if g.rTotal <= 0 {
		return refuse(ErrResistance, "total", g.rTotal)
	}
	if g.last == 0 {
		return refuse(ErrLayer, "total sd", 0)
	}
	g.judge(layers)
	return nil
}

// add appends layer i in equal slices of R no thicker than SliceRM2KW.
func (g *grid) add(i int, l Layer) error {
	// The small allowance keeps a layer of exactly n slices at n.
	n := max(1, int(math.Ceil(l.RM2KW/SliceRM2KW-1e-9)))
	if g.points+n > maxPoints {
		return refuse(ErrTooMany, "slices", float64(g.points+n-1))
	}
	g.between[i] = g.points - 1
	g.outerOf[g.points-1] = i
	g.opens = g.opens || l.dryingSdM() != l.SdM
	dr, dsd, dsdDry := l.RM2KW/float64(n), l.SdM/float64(n), l.dryingSdM()/float64(n)
	for range n {
		p := g.points
		g.rTo[p] = g.rTo[p-1] + dr
		g.innerOf[p], g.outerOf[p] = i, i
		g.step(p, dsd, dsdDry)
		g.points++
	}
	g.between[i+1] = g.points - 1
	return nil
}

// step gives point p a node: a new one, or that of the point before when
// there is no vapour resistance between them.
func (g *grid) step(p int, dsd, dsdDry float64) {
	if dsd > thinSdM {
		g.last++
		g.sdWetM[g.last] = g.sdWetM[g.last-1] + dsd
		g.sdDryM[g.last] = g.sdDryM[g.last-1] + dsdDry
		g.first[g.last] = p
	}
	g.node[p] = g.last
}

// judge marks the nodes that something sensitive touches.
func (g *grid) judge(layers []Layer) {
	for p := range g.points {
		in, out := g.innerOf[p], g.outerOf[p]
		if in != noLayer && layers[in].Sensitive || out != noLayer && layers[out].Sensitive {
			g.judged[g.node[p]] = true
		}
	}
}

// tempC is the temperature at a point between a room at inC and outC.
func (g *grid) tempC(point int, inC, outC float64) float64 {
	return inC - (inC-outC)*g.rTo[point]/g.rTotal
}

// saturate fills sat with the saturation pressure of every node. Where points
// share a node the lowest counts: the coldest of them is wet first.
func (g *grid) saturate(inC, outC float64, sat *[maxPoints]float64) {
	for k := 0; k <= g.last; k++ {
		sat[k] = math.Inf(1)
	}
	for p := range g.points {
		k := g.node[p]
		sat[k] = min(sat[k], satPa(g.tempC(p, inC, outC)))
	}
}
