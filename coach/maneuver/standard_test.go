package maneuver

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach/check"
)

func TestShippedStandards(t *testing.T) {
	lib := shippedLibrary(t)
	var names []string
	for _, s := range lib.Standards() {
		names = append(names, s.Name)
		for _, c := range s.Changes {
			card, err := lib.Card(c.Maneuver)
			if err != nil {
				t.Error(err)
				continue
			}
			if !slices.ContainsFunc(card.Checks, func(k check.Spec) bool { return k.ID == c.Check }) {
				t.Errorf("%s changes %s of %s, which does not have it", s.Name, c.Check, c.Maneuver)
			}
		}
	}
	slices.Sort(names)
	if strings.Join(names, " ") != "check course practice" {
		t.Errorf("standards: %v", names)
	}
}

func bandOf(t *testing.T, lib *Library, maneuver, standard, id string) check.Band {
	t.Helper()
	c, err := lib.Judged(maneuver, standard)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(c.Checks, func(k check.Spec) bool { return k.ID == id })
	return c.Checks[i].MetBand
}

func TestJudged(t *testing.T) {
	lib := shippedLibrary(t)
	// The published tolerance at the exit of a lazy eight: 100 ft (FAA-S-ACS-7 CA.V.D.S5c).
	if b := bandOf(t, lib, "lazy-eight", "check", "exit-height"); *b.Low != -100 || *b.High != 100 {
		t.Errorf("check: %v", b)
	}
	course, practice := bandOf(t, lib, "wing-over", "course", "exit-heading"), bandOf(t, lib, "wing-over", "practice", "exit-heading")
	// Half as wide again about the aim of 180°.
	if *practice.Low != 180+(*course.Low-180)*1.5 || *practice.High != 180+(*course.High-180)*1.5 {
		t.Errorf("course %v, practice %v", course, practice)
	}
	if b := bandOf(t, lib, "wing-over", "practice", "opposite-directions"); *b.High != 0 {
		t.Errorf("practice forgives the same direction twice: %v", b)
	}
	if b := bandOf(t, lib, "wing-over", "", "exit-heading"); *b.Low != *course.Low {
		t.Errorf("without a standard the card stands: %v", b)
	}
	if _, err := lib.Judged("wing-over", "harsh"); err == nil || !strings.Contains(err.Error(), "practice, ") {
		t.Errorf("an unknown standard: %v", err)
	}
}

func TestWrongStandards(t *testing.T) {
	good := "name = 's'\ntitle = 'S'\nsummary = 'x'\nsource = 'ours'\nwiden = 1.0\n"
	change := "[[change]]\nmaneuver = 'wing-over'\ncheck = 'exit-speed'\nsource = 'ours'\n"
	for name, c := range map[string]struct{ text, want string }{
		"unknown key": {good + "wide = 2\n", "s.toml:6: wide: is not a known key"},
		"widen":       {strings.Replace(good, "1.0", "9.0", 1), "s.toml:5: widen: is 9; allowed: 0.5 to 4"},
		"inverted":    {good + change + "met = [5, -5]\nnear = [-9, 9]\n", "s.toml:10: change[0].met"},
		"near":        {good + change + "met = [-5, 5]\nnear = [-4, 4]\n", "s.toml:11: change[0].near"},
		"no source":   {good + strings.Replace(change, "source = 'ours'\n", "", 1) + "met = [-5, 5]\nnear = [-5, 5]\n", "change[0].source"},
	} {
		if _, err := LoadStandard("s.toml", []byte(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q in it", name, err, c.want)
		}
	}
}
