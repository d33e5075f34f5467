package moisture

// rope is the vapour pressure through an assembly at one moment, found as a
// string pulled tight: from the room's pressure to the outside's, never above
// saturation, and held at saturation wherever water lies. Between the held
// nodes that string is the lower convex hull of the points (sd, saturation).
// Where it touches, vapour condenses.
type rope struct {
	len  int
	at   [maxPoints]int     // nodes the string bends at, both ends included
	rate [maxPoints]float64 // kg/(m2.s) collecting at each of them but the two ends
}

// pull stretches the string over the nodes 0 to last. y holds the end
// pressures at 0 and last and saturation between; held marks the wet nodes.
func (r *rope) pull(last int, sdM, y *[maxPoints]float64, heldKgM2 *[maxPoints]float64) {
	r.at[0], r.len = 0, 1
	base := 1 // a held node is never passed over: nothing before base is undone
	for k := 1; k <= last; k++ {
		for r.len > base && above(sdM, y, r.at[r.len-2], r.at[r.len-1], k) {
			r.len--
		}
		r.at[r.len] = k
		r.len++
		if heldKgM2[k] > 0 {
			base = r.len
		}
	}
	r.measure(sdM, y)
}

// above tells whether b lies on or above the straight line from a to c, so
// that a tight string from a to c does not touch it.
func above(sdM, y *[maxPoints]float64, a, b, c int) bool {
	return (y[b]-y[a])*(sdM[c]-sdM[a]) >= (y[c]-y[a])*(sdM[b]-sdM[a])
}

// measure works out what collects at every bend.
func (r *rope) measure(sdM, y *[maxPoints]float64) {
	for i := 1; i < r.len-1; i++ {
		a, b, c := r.at[i-1], r.at[i], r.at[i+1]
		r.rate[i] = NetRate(y[a], sdM[b]-sdM[a], y[b], y[c], sdM[c]-sdM[b])
	}
}

// total is the water the whole assembly gains, kg/(m2.s).
func (r *rope) total() float64 {
	var sum float64
	for i := 1; i < r.len-1; i++ {
		sum += r.rate[i]
	}
	return sum
}

// addPressure adds weight times the pressure of every node to mean.
func (r *rope) addPressure(sdM, y *[maxPoints]float64, weight float64, mean *[maxPoints]float64) {
	for i := 1; i < r.len; i++ {
		a, b := r.at[i-1], r.at[i]
		slope := (y[b] - y[a]) / (sdM[b] - sdM[a])
		for k := a + 1; k < b; k++ {
			mean[k] += weight * (y[a] + slope*(sdM[k]-sdM[a]))
		}
		mean[b] += weight * y[b]
	}
	mean[0] += weight * y[0]
}
