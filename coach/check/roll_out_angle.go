package check

// rollOutAngle gives the turn angle where the roll-out starts: the last one at which bank
// still stands within a twentieth of its steepest, and a degree.
type rollOutAngle struct{ binned }

func (r *rollOutAngle) Measure(*Moment) Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	i := lastSteep(v)
	return value(at[i], at[i])
}

// lastSteep returns the index after which bank has begun to come off for good.
func lastSteep(v []float64) int {
	steepest := v[top(v, 1)]
	i := len(v) - 1
	for i > 0 && v[i] < steepest*0.95-1 {
		i--
	}
	return i
}
