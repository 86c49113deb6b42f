package follow

// Tell says what a person has to say to the pilot.
func (s *Single) Tell(by, words string) { s.judge.Tell(by, words) }

// Stop says that a person stops the pilot, and ends the leg that is flown.
func (s *Single) Stop(by string) { s.judge.Stop(by) }

// Turn returns the turn angle of the leg being flown, °. ok is false between legs.
func (s *Single) Turn() (turn float64, ok bool) { return s.judge.Turn() }

// Tell says what a person has to say; see [Single.Tell].
func (a *Auto) Tell(by, words string) {
	for i, j := range a.judges {
		j.Tell(by, words)
		a.collect(i)
	}
}

// Stop says that a person stops the pilot; see [Single.Stop]. The legs that wait to be told apart are decided by what
// was flown of them.
func (a *Auto) Stop(by string) {
	_, flying := a.Turn()
	for i, j := range a.judges {
		j.Stop(by)
		if flying {
			j.Abandon()
		}
		a.collect(i)
	}
	if !flying {
		return
	}
	a.settle(true)
	for i := range a.judges {
		a.release(i)
	}
	a.clear, a.looked = false, 0
	a.listen()
}

// Turn returns the turn angle of the leg being flown, as the lead sees it where it sees one; see [Single.Turn].
func (a *Auto) Turn() (turn float64, ok bool) {
	if turn, ok = a.judges[a.lead].Turn(); ok {
		return turn, true
	}
	for _, j := range a.judges {
		if turn, ok = j.Turn(); ok {
			return turn, true
		}
	}
	return 0, false
}
