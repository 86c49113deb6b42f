package assess

import (
	"slices"
	"strconv"
	"strings"

	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
)

// A Record is how a student stands in a course, with all that it rests on.
type Record struct {
	Version  int      `json:"version"`
	Cautions []string `json:"cautions"`
	Student  string   `json:"student"`
	At       string   `json:"at"`    // when it was made, RFC 3339
	Known    bool     `json:"known"` // the student flew something
	// Chosen is the course that is kept for the student; the zero value is none.
	Chosen   logbook.CourseChoice `json:"chosen"`
	Flown    logbook.CourseChoice `json:"flown"` // the course of the record
	Course   *course.Course       `json:"course"`
	Progress *course.Progress     `json:"progress"`
	Steps    []RecordStep         `json:"steps"` // as those of the course
	Blocks   []Block              `json:"blocks"`
	Plan     *course.Plan         `json:"plan"`
	Week     *course.Week         `json:"week"`
}

// A RecordStep is a step of a record: which grade its maneuver must have, and which it has.
type RecordStep struct {
	Maneuver string `json:"maneuver"` // its title
	Required string `json:"required"` // the grade for the block, "" where none is asked for
	Last     string `json:"last"`     // of the latest try, "" before the first
	Reached  bool   `json:"reached"`  // the last is as good as that
}

// StepOf is how a step stands beside the grade that is required.
func StepOf(title, required string, s *course.State) RecordStep {
	out := RecordStep{Maneuver: title, Required: required}
	if n := len(s.Lately); n > 0 {
		out.Last = s.Lately[n-1].Grade
	}
	out.Reached = out.Last != "" && rank(out.Last) >= rank(required)
	return out
}

// A Block is a part of flying, across the steps of a course: one that is weak shows in several of them.
type Block struct {
	Aspect string   `json:"aspect"` // see [Aspects]
	Weak   bool     `json:"weak"`   // it was missed in the latest step that has it
	Marks  []string `json:"marks"`  // verdicts, one for each step; "" where it has nothing of it
}

// blockTries are how many of the latest tries at a step a mark rests on; common practice, no source.
const blockTries = 3

// BlocksOf sums the checks of the latest tries up by what they are about: of each try the worst verdict counts, and of
// the tries the middle one, the worse of two. Where nothing was flown yet, every block is not measured.
func BlocksOf(c *course.Course, p *course.Progress, legs []course.Flown) []Block {
	type place struct {
		session string
		n       int
	}
	flown := map[place]*coach.Leg{}
	for i := range legs {
		flown[place{legs[i].Session, legs[i].Number}] = legs[i].Leg
	}
	blocks := []Block{}
	for _, aspect := range Aspects() {
		b := Block{Aspect: aspect, Marks: make([]string, len(c.Steps))}
		some := false
		for i := range c.Steps {
			var worst []int
			lately := p.Steps[i].Lately
			for _, t := range lately[max(0, len(lately)-blockTries):] {
				leg := flown[place{t.Session, t.Number}]
				if leg == nil {
					continue
				}
				if w := worstAbout(leg.Checks, c.Steps[i].Checks, aspect); w >= 0 {
					worst = append(worst, w)
				}
			}
			if len(worst) == 0 {
				continue
			}
			slices.Sort(worst)
			b.Marks[i] = blockMarks[worst[len(worst)/2]]
			b.Weak, some = b.Marks[i] == coach.Missed, true
		}
		if some {
			blocks = append(blocks, b)
		}
	}
	return blocks
}

// blockMarks are the verdicts that a mark can be, best first.
var blockMarks = [...]string{coach.Met, coach.Near, coach.Missed}

// worstAbout is the worst verdict on the checks about an aspect, by its place in blockMarks; −1 where none was
// measured.
func worstAbout(checks []coach.Check, part []string, aspect string) int {
	worst := -1
	for i := range checks {
		k := &checks[i]
		if k.Weight == 0 || len(part) > 0 && !slices.Contains(part, k.ID) || AspectOf(k) != aspect {
			continue
		}
		worst = max(worst, slices.Index(blockMarks[:], k.Verdict))
	}
	return worst
}

// Table is the record as rows of cells, one row for each step below the names of the columns.
func (r *Record) Table() [][]string {
	rows := [][]string{{
		"student", "course", "cause", "step", "title", "maneuver", "standard", "state", "tries", "good", "right_good",
		"left_good", "either_good", "needed", "last_flown", "last_grade", "required", "reached", "passed_by", "signed",
		"ruled", "ruled_by", "ruled_at", "reason", "missed_most", "missed_times",
	}}
	for i := range r.Course.Steps {
		s, p, x := &r.Course.Steps[i], &r.Progress.Steps[i], &r.Steps[i]
		by, signed := make([]string, len(p.PassedBy)), 0
		for k := range p.PassedBy {
			by[k] = p.PassedBy[k].Session + ":" + strconv.Itoa(p.PassedBy[k].Number)
			if p.PassedBy[k].Signed {
				signed++
			}
		}
		good, need := map[string]string{}, ""
		for _, side := range p.Sides {
			good[side.Direction], need = strconv.Itoa(side.Good), strconv.Itoa(side.Need)
		}
		ruled, missed := make([]string, 4), make([]string, 2)
		if p.Ruled != nil {
			ruled = []string{logbook.StepNotYet, Cell(p.Ruled.By), p.Ruled.At, Cell(p.Ruled.Reason)}
			if p.Ruled.Passed {
				ruled[0] = logbook.StepPassed
			}
		}
		if len(p.Missed) > 0 {
			missed = []string{p.Missed[0].ID, strconv.Itoa(p.Missed[0].Times)}
		}
		row := []string{
			Cell(r.Student), r.Course.Name, r.Course.Cause, s.ID, Cell(s.Title), s.Maneuver, s.Standard, p.State,
			strconv.Itoa(p.Tries), strconv.Itoa(p.Good), good["right"], good["left"], good[""], need, p.Last, x.Last,
			x.Required, strconv.FormatBool(x.Reached), strings.Join(by, " "), strconv.Itoa(signed),
		}
		rows = append(rows, append(append(row, ruled...), missed...))
	}
	return rows
}

// WithoutNames is the record without who it is of, without the words of people, and without the names of sessions,
// which hold a station.
func (r *Record) WithoutNames() *Record {
	out, progress := *r, *r.Progress
	out.Student, out.Progress = "", &progress
	progress.Steps = make([]course.State, len(r.Progress.Steps))
	nameless := func(tries []course.Try) []course.Try {
		list := make([]course.Try, len(tries))
		for i, t := range tries {
			t.Session = ""
			list[i] = t
		}
		return list
	}
	for i, s := range r.Progress.Steps {
		s.PassedBy, s.Lately = nameless(s.PassedBy), nameless(s.Lately)
		if s.Ruled != nil {
			s.Ruled = &course.Ruling{Step: s.Ruled.Step, Passed: s.Ruled.Passed, At: s.Ruled.At}
		}
		progress.Steps[i] = s
	}
	return &out
}
