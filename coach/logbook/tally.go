package logbook

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/stream/phrase"
)

// letters encode verdicts in a row of a list.
var letters = map[string]byte{coach.Met: 'm', coach.Near: 'n', coach.Missed: 'x', coach.NotMeasured: 'o'}

// mostVerdicts is how many verdicts of a session are shown in a row of a list.
const mostVerdicts = 100

// A Tally sums up a grading of a session: what lists and trends show of it.
type Tally struct {
	Maneuvers []Named // flown, in the order in which they came
	By        map[string]*ManeuverTally
	Letters   string // the verdicts of the first legs; see VerdictsOf
	Legs      int
	Change    phrase.Phrase // the one thing to change

	titles map[string]string
	marks  []mark // of the graded legs
}

// A mark is the grade of a leg, by its place in the scale, with its score.
type mark struct {
	rank     int
	score    float64
	leg      int // in its session, from 1
	headline phrase.Phrase
}

// A ManeuverTally sums up one maneuver of a session.
type ManeuverTally struct {
	Title    string
	Legs     int
	Finished int            // legs that were finished and judged
	Head     int            // of these good or better in a run: from the first on,
	Tail     int            // up to the last,
	Best     int            // and the longest run
	Things   map[string]int // legs by what was the one thing to change

	checks gathering
}

// Checks are the checks of the finished legs, summed up.
func (m *ManeuverTally) Checks() []CheckSum { return m.checks.sum() }

// TallyOf sums up a grading. Titles maps "maneuvers/" and the name of a card to its title; others go by their names.
func TallyOf(r *debrief.Report, titles map[string]string) *Tally {
	var all []coach.Series
	for _, s := range Stations(r) {
		all = append(all, s.Series...)
	}
	t := &Tally{By: map[string]*ManeuverTally{}, titles: titles, Maneuvers: []Named{}}
	for i := range all {
		t.series(&all[i])
	}
	if s := debrief.Summarize(all); s != nil {
		t.Change = s.Change
	}
	return t
}

// Stations are the stations of a report, over all its files.
func Stations(r *debrief.Report) (all []debrief.StationReport) {
	for i := range r.Files {
		all = append(all, r.Files[i].Stations...)
	}
	return all
}

func (t *Tally) series(s *coach.Series) {
	f := t.By[s.Maneuver]
	if f == nil {
		f = &ManeuverTally{Title: t.titles["maneuvers/"+s.Maneuver], Things: map[string]int{}, checks: gathering{}}
		if f.Title == "" {
			f.Title = s.Maneuver
		}
		t.By[s.Maneuver] = f
		t.Maneuvers = append(t.Maneuvers, Named{s.Maneuver, f.Title})
	}
	lacks := !s.Missing.IsZero() && s.Verdict == coach.Missed
	for i := range s.Legs {
		l := &s.Legs[i]
		t.Legs++
		f.Legs++
		if len(t.Letters) < mostVerdicts {
			t.Letters += string(letters[l.Verdict])
		}
		if !l.Change.IsZero() {
			f.Things[l.Change.String()]++
		}
		if l.Outcome == coach.Finished {
			if l.Verdict != coach.NotMeasured {
				f.count(rank(l.Grade) >= rank(coach.Good))
			}
			f.checks.take(l.Checks)
		}
		if r := rank(l.Grade); r > 0 {
			m := mark{r, l.Score, t.Legs, l.Headline}
			if lacks && r > rank(coach.Fair) { // as the series
				m = mark{rank(coach.Fair), math.Min(l.Score, s.Score), 0, s.Headline}
			}
			t.marks = append(t.marks, m)
		}
	}
}

// count counts a finished leg that was judged, and the runs of good ones.
func (f *ManeuverTally) count(good bool) {
	f.Finished++
	if !good {
		f.Tail = 0
		return
	}
	f.Tail++
	f.Best = max(f.Best, f.Tail)
	if f.Tail == f.Finished {
		f.Head = f.Tail
	}
}

// scale is the grades from the lowest.
var scale = []string{"", coach.Unable, coach.Fair, coach.Good, coach.Excellent}

func rank(grade string) int {
	for i, g := range scale {
		if g == grade {
			return i
		}
	}
	return 0
}

// middle returns the mark of the middle leg, the lower of two: one leg that went wrong is not the session, nor is one
// that went well (common practice, no source). ok is false when none was graded.
func (t *Tally) middle() (m mark, ok bool) {
	if len(t.marks) == 0 {
		return m, false
	}
	sorted := slices.SortedStableFunc(slices.Values(t.marks), func(a, b mark) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.score, b.score))
	})
	return sorted[(len(sorted)-1)/2], true
}

// Score is that of the middle leg, to a tenth; nil without one.
func (t *Tally) Score() *float64 {
	m, ok := t.middle()
	if !ok {
		return nil
	}
	return new(math.Round(m.score*10) / 10)
}

// Grade is that of the middle leg; "" without one.
func (t *Tally) Grade() string {
	m, _ := t.middle()
	return scale[m.rank]
}

// Headline says what the grade rests on: the headline of the middle leg, with its number where there are others, or
// that of its series where that lacks legs.
func (t *Tally) Headline() phrase.Phrase {
	m, ok := t.middle()
	if !ok || m.headline.IsZero() || t.Legs == 1 || m.leg == 0 {
		return m.headline
	}
	return phrase.OfLeg.Of(phrase.Int("leg", m.leg), phrase.Part("headline", m.headline))
}

// VerdictsOf reads the verdicts of Tally.Letters.
func VerdictsOf(s string) []string {
	list := make([]string, 0, len(s))
	for _, word := range strings.Split(s, "") {
		for v, c := range letters {
			if word[0] == c {
				list = append(list, v)
			}
		}
	}
	return list
}
