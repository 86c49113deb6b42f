package ground

import (
	"math"

	"halfturn/coach/aero"
)

// How a point that was not chosen is found. Common practice, no source, where none is named; proved on recorded
// flights.
const (
	leastRound = 120.0 // ° of a circle that must be flown for its center to be found; half of it for a pylon

	// A pilot sees the pylon leave the wing before the bank follows it, so the wing points to where it was a moment
	// ago: s, and by how much that may be off.
	wingLag  = 1.75
	lagDoubt = 0.75
	// At the most bank that is allowed (FAA-S-ACS-7 CA.V.E.S5) a pilot does not follow a pylon that is lower still, °.
	mostBank = 40.0

	handsLast = 2.5 // s for which an error of the hands lasts: one of a shorter time says the same again

	// A turn begins in the middle of its roll-in, where the point is abeam: s by which that is off, and the distance
	// from the line of the entry to the point against the one that was flown then, a share of it.
	abeamDoubt  = 0.6
	beginsAside = 0.06
	// What a pilot who lets the distance vary cannot see of it, the part that comes once a turn and so moves the
	// center, is larger than what is left of it about the center that was flown.
	unseen = 2.0
)

// A doubt is the covariance of a point on the ground, ft².
type doubt struct{ nn, ne, ee float64 }

// inverse returns the information of a doubt, or the doubt of an information.
func (d doubt) inverse() doubt {
	det := d.nn*d.ee - d.ne*d.ne
	return doubt{d.ee / det, -d.ne / det, d.nn / det}
}

// and adds another doubt.
func (d doubt) and(o doubt) doubt { return doubt{d.nn + o.nn, d.ne + o.ne, d.ee + o.ee} }

// within returns two standard errors in the direction where they are largest, ft.
func (d doubt) within() float64 {
	return 2 * math.Sqrt((d.nn+d.ee)/2+math.Hypot((d.nn-d.ee)/2, d.ne))
}

// along returns the doubt that is a along a direction of the ground, a unit vector, and b across it, ft.
func along(u offset, a, b float64) doubt {
	a, b = a*a, b*b
	return doubt{a*u.north*u.north + b*u.east*u.east, (a - b) * u.north * u.east,
		a*u.east*u.east + b*u.north*u.north}
}

// Center finds the point that a turn was flown round between two turn angles (°): the center of the circle nearest to
// it in least squares (the algebraic fit of Kåsa, IEEE Trans. Instrum. Meas. 25, 1976, which is exact on a circle), and
// the point that the turn was begun abeam of, each by how sure it is: a circle that the wind moved off the point is not
// about it, and the more the distance varied the less it tells.
func (w *Way) Center(from, to float64) (Spot, bool) {
	spots := w.within(from, to)
	if n := len(spots); n < 3 || float64(spots[n-1].turn-spots[0].turn) < leastRound {
		return Spot{}, false
	}
	at, about, ok := circle(spots)
	if !ok {
		return Spot{}, false
	}
	if abeam, than, ok := w.abeam(at, about); ok {
		a, b := about.inverse(), than.inverse()
		about = a.and(b).inverse()
		n := a.nn*at.north + a.ne*at.east + b.nn*abeam.north + b.ne*abeam.east
		e := a.ne*at.north + a.ee*at.east + b.ne*abeam.north + b.ee*abeam.east
		at.north, at.east = about.nn*n+about.ne*e, about.ne*n+about.ee*e
	}
	spot := w.at(at.north, at.east, spots)
	spot.Within = about.within()
	return spot, true
}

// A round is a circle on the ground: its center in ft from the first spot of a way, its radius, and how far the flight
// was from it (root of the mean square), ft.
type round struct{ north, east, radius, off float64 }

// circle fits a circle to some spots, and says how sure its center is.
func circle(spots []spot) (c round, about doubt, ok bool) {
	var m normal
	n := float64(len(spots))
	var mean offset
	for i := range spots {
		mean.north += float64(spots[i].north) / n
		mean.east += float64(spots[i].east) / n
	}
	for i := range spots {
		north, east := float64(spots[i].north)-mean.north, float64(spots[i].east)-mean.east
		m.add([3]float64{2 * north, 2 * east, 1}, north*north+east*east)
	}
	x, ok := m.solve(3)
	if !ok {
		return c, about, false
	}
	c = round{x[0] + mean.north, x[1] + mean.east, math.Sqrt(math.Max(0, x[2]+x[0]*x[0]+x[1]*x[1])), 0}
	for i := range spots {
		away := math.Hypot(float64(spots[i].north)-c.north, float64(spots[i].east)-c.east) - c.radius
		c.off += away * away / n
	}
	c.off = math.Sqrt(c.off)
	// Of a whole circle, whose center is twice as sure as any one distance by n/2 of them, the doubt is what is unseen.
	by := unseen * c.off * 2 * c.radius
	by *= by * n / 2
	m.b = [3]float64{1, 0, 0}
	first, _ := m.solve(3)
	m.b = [3]float64{0, 1, 0}
	second, _ := m.solve(3)
	about = doubt{by * first[0], by * first[1], by * second[1]}
	const least = 5.0 // ft: what a position rounded to a hundred thousandth of a degree leaves
	return c, about.and(doubt{least * least, 0, least * least}), true
}

// abeam returns the point that was abeam where the turn began, in the middle of its roll-in, as far away as was flown
// then, and how sure that is. ok is false where the roll-in is not part of the way.
func (w *Way) abeam(c round, about doubt) (at round, than doubt, ok bool) {
	b, ok := w.begin()
	if !ok {
		return at, than, false
	}
	right, side := offset{-b.track.east, b.track.north}, 1.0
	// Which side the center is on is the side of the turn.
	if (c.north-b.at.north)*right.north+(c.east-b.at.east)*right.east < 0 {
		side = -1
	}
	at = round{b.at.north + side*c.radius*right.north, b.at.east + side*c.radius*right.east, c.radius, 0}
	aside := math.Hypot(beginsAside*c.radius, about.within()/2/unseen)
	return at, along(b.track, b.speed*abeamDoubt, aside), true
}

// A begin is where a turn began: on the line of its entry, in the middle of the roll-in.
type begin struct {
	at, track offset  // ft from the first spot; the direction of the line, a unit vector
	speed     float64 // ft/s along it
}

// begin finds where the turn began: where half the steepest bank of its first quarter was reached. ok is false where
// the roll-in is not part of the way.
func (w *Way) begin() (b begin, ok bool) {
	most, k := 0.0, 0
	for i := range w.spots {
		if p := &w.spots[i]; p.turn < 90 {
			most = math.Max(most, float64(p.bank))
		}
	}
	for k < len(w.spots) && float64(w.spots[k].bank) < most/2 {
		k++
	}
	if k == 0 || k == len(w.spots) {
		return b, false
	}
	first, was, p := &w.spots[0], &w.spots[k-1], &w.spots[k]
	part := float32(most/2-float64(was.bank)) / (p.bank - was.bank)
	north := float64(was.north + part*(p.north-was.north) - first.north)
	east := float64(was.east + part*(p.east-was.east) - first.east)
	time := float64(was.time + part*(p.time-was.time) - first.time)
	if b.track, ok = w.entryTrack(); !ok || !(time > 0) {
		return b, false
	}
	far := north*b.track.north + east*b.track.east
	b.at = offset{float64(first.north) + far*b.track.north, float64(first.east) + far*b.track.east}
	b.speed = math.Abs(far) / time
	return b, b.speed > hardly*aero.FeetPerSecond
}

// Begun returns how a turn began at a point: how long it still was until that would have been abeam, in the middle of
// the roll-in (s, negative after it), and how far away that would have been (ft). ok is false where the roll-in is not
// part of the way.
func (w *Way) Begun(at Spot) (until, distance float64, ok bool) {
	b, ok := w.begin()
	if !ok {
		return 0, 0, false
	}
	north, east := at.north-b.at.north, at.east-b.at.east
	until = (north*b.track.north + east*b.track.east) / b.speed
	return until, math.Abs(east*b.track.north - north*b.track.east), true
}

// entryTrack returns the direction over the ground in which the way began: of a line of some length, less half the turn
// along it.
func (w *Way) entryTrack() (u offset, ok bool) {
	const enough = 100.0 // ft
	first := &w.spots[0]
	for i := range w.spots {
		p := &w.spots[i]
		north, east := float64(p.north-first.north), float64(p.east-first.east)
		if math.Hypot(north, east) < enough {
			continue
		}
		turned := math.Remainder(float64(p.heading-first.heading), 360)
		sin, cos := math.Sincos(math.Atan2(east, north) - turned/2*degree)
		return offset{cos, sin}, true
	}
	return u, false
}

// Pylon finds the point on the ground that was kept on the wing between two turn angles (°): the pilot keeps it level
// with the wing by the bank, so that it lies in the plane of the wings; where all those planes meet the ground in least
// squares, there it is. Whether it moved ahead or behind does not matter for that. side is that of the turn, 1 right,
// −1 left.
func (w *Way) Pylon(side, from, to float64) (Spot, bool) {
	spots := w.within(from, to)
	if n := len(spots); n < 3 || float64(spots[n-1].turn-spots[0].turn) < leastRound/2 {
		return Spot{}, false
	}
	if w.magnetic { // the wings are turned by the variation, which is not known
		return Spot{}, false
	}
	at, about, ok := onWing(planes(spots, side, wingLag))
	if !ok {
		return Spot{}, false
	}
	spot := w.at(at.north, at.east, spots)
	early, _, ok := onWing(planes(spots, side, wingLag-lagDoubt))
	late, _, both := onWing(planes(spots, side, wingLag+lagDoubt))
	if ok && both {
		north, east := (late.north-early.north)/2, (late.east-early.east)/2
		about = about.and(doubt{north * north, north * east, east * east})
	}
	spot.Within = about.within()
	return spot, true
}

// A plane is that of the wings at a spot of the way, as they were a moment later.
type plane struct {
	from offset
	high float64    // ft above the ground
	down [3]float64 // what is square to it
	bank float64    // °
	time float64    // s
}

// planes returns the planes of the wings at some spots, each with the bank of a lag (s) later; nil without a height.
func planes(spots []spot, side, lag float64) (list []plane) {
	k := 0
	for i := range spots {
		p := spots[i]
		then := float64(p.time) + lag
		for k < len(spots) && float64(spots[k].time) < then {
			k++
		}
		if k == len(spots) || math.IsNaN(float64(p.height)) {
			break
		}
		p.bank = spots[k].bank
		if k > 0 && spots[k].time > spots[k-1].time {
			part := (float32(then) - spots[k-1].time) / (spots[k].time - spots[k-1].time)
			p.bank = spots[k-1].bank + part*(spots[k].bank-spots[k-1].bank)
		}
		_, _, down := p.axes(side)
		list = append(list, plane{offset{float64(p.north), float64(p.east)}, float64(p.height), down,
			float64(p.bank), float64(p.time)})
	}
	return list
}

// below returns the angle by which a point is below the plane of the wings, radians, and its distance, ft.
func (p *plane) below(at offset) (angle, distance float64) {
	to := [3]float64{at.north - p.from.north, at.east - p.from.east, p.high}
	distance = math.Sqrt(to[0]*to[0] + to[1]*to[1] + to[2]*to[2])
	return math.Asin((p.down[0]*to[0] + p.down[1]*to[1] + p.down[2]*to[2]) / distance), distance
}

// free reports whether the bank of a plane was the pilot's choice: not where the most is flown and the point is lower
// still.
func (p *plane) free(angle float64) bool { return p.bank <= mostBank || angle <= 0 }

// onWing returns where some planes meet the ground: the point from which the angles to them are the least in their
// squares, and how sure it is.
func onWing(list []plane) (at offset, about doubt, ok bool) {
	const (
		rounds = 12   // it takes a few until what is left out stays the same
		scale  = 1000 // ft: keeps the numbers near one
	)
	n, sum := 0.0, 0.0
	for i := range rounds {
		var m normal
		n, sum = 0, 0
		for k := range list {
			p := &list[k]
			angle, distance := 0.0, float64(scale)
			if i > 0 {
				if angle, distance = p.below(at); !p.free(angle) {
					continue
				}
			}
			n, sum = n+1, sum+angle*angle
			f := scale / distance
			a, b := f*p.down[0], f*p.down[1]
			m.add([3]float64{a, b}, a*p.from.north+b*p.from.east-f*p.down[2]*p.high)
		}
		x, solved := m.solve(2)
		if !solved || n < 3 {
			return at, about, ok
		}
		moved := math.Hypot(x[0]-at.north, x[1]-at.east)
		at, ok = offset{x[0], x[1]}, true
		m.b = [3]float64{1, 0}
		first, _ := m.solve(2)
		m.b = [3]float64{0, 1}
		second, _ := m.solve(2)
		// Samples in quick succession repeat each other: only a few are independent, and the point uses up two.
		few := max(3, min(n, (list[len(list)-1].time-list[0].time)/handsLast))
		by := sum / (few - 2) * scale * scale
		about = doubt{by * first[0], by * first[1], by * second[1]}
		if i > 1 && moved < 0.1 {
			break
		}
	}
	return at, about, ok
}
