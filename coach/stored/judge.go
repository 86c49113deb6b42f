package stored

import (
	"fmt"
	"strings"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
)

// A Setup is the configuration for recordings that do not say how they were followed.
type Setup interface {
	// Choice is the choice when nothing else says what was flown.
	Choice() maneuver.Choice
	// Options are those of a session of a choice, by the cards of the configuration and those in the folder besides; ""
	// is none.
	Options(c maneuver.Choice, besides string) (session.Options, error)
	// Library reads these cards, by the standard of a choice.
	Library(c maneuver.Choice, besides string) (*maneuver.Library, error)
}

// An Override holds what was asked for explicitly; nil where nothing was.
type Override struct{ Maneuver, Standard, Aircraft *string }

// apply replaces parts of a choice by what was asked for.
func (o *Override) apply(c *maneuver.Choice) {
	for from, to := range map[*string]*string{o.Maneuver: &c.Maneuver, o.Standard: &c.Standard,
		o.Aircraft: &c.Aircraft} {
		if from != nil {
			*to = *from
		}
	}
}

// A Judge says by which cards recordings are judged. What was asked for explicitly wins over what was chosen while a
// recording was flown, or noted when it was imported, and that over the configuration.
type Judge struct {
	Setup Setup
	Asked Override
	// Today judges by the cards of today, not by those that stand with a session.
	Today bool
	// Rate is how many rows a second a text log has that does not say the time; 0 where nobody said.
	Rate float64
}

// Follow says how a recording is followed.
func (j *Judge) Follow(rec *play.Recording) (play.Following, error) {
	choice, err := j.choice(rec)
	if err != nil {
		return play.Following{}, err
	}
	besides := j.besides(rec)
	opt, err := j.Setup.Options(choice, besides)
	if err != nil && besides != "" { // its cards are of an older version, and not understood any more
		today := *j
		today.Today = true
		return today.Follow(rec)
	}
	return play.Following{Options: opt, Rate: j.Rate, Plans: func(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
		return j.plans(c, besides)
	}}, err
}

// besides is the folder of the cards that stand with a recording; "" when it is judged by others.
func (j *Judge) besides(rec *play.Recording) string {
	if j.Today || rec.Dir == "" {
		return ""
	}
	return folder.Cards(rec.Dir)
}

// choice is that for a recording that says nothing itself.
func (j *Judge) choice(rec *play.Recording) (maneuver.Choice, error) {
	c := j.Setup.Choice()
	n, err := notes(rec)
	if err != nil {
		return c, err
	}
	if n != nil {
		c.Maneuver, c.Aircraft = n.Maneuver, n.Aircraft
		if n.Standard != "" {
			c.Standard = n.Standard
		}
	}
	j.Asked.apply(&c)
	return c, nil
}

// Judging is what people made of the grades of a session, where it is judged by the cards that they saw.
func (j *Judge) Judging(rec *play.Recording) (*logbook.Judging, error) {
	if rec.Dir == "" || j.Today || j.Asked != (Override{}) {
		return nil, nil
	}
	judging, err := folder.Judging(rec.Dir)
	if err != nil || judging.IsZero() {
		return nil, err
	}
	return &judging, nil
}

// Library reads the cards that a recording is judged by.
func (j *Judge) Library(rec *play.Recording) (*maneuver.Library, error) {
	choice, err := j.choice(rec)
	if err != nil {
		return nil, err
	}
	besides := j.besides(rec)
	lib, err := j.Setup.Library(choice, besides)
	if err != nil { // those that stand with it are of an older version
		lib, err = j.Setup.Library(j.Setup.Choice(), "")
	}
	return lib, err
}

// notes are those of a session that was imported, which its recording lacks; nil when there are none.
func notes(rec *play.Recording) (*folder.Notes, error) {
	if rec.Dir == "" || rec.Opening() != nil {
		return nil, nil
	}
	n, err := folder.ReadNotes(rec.Dir)
	if err != nil || n == nil || n.Maneuver == "" {
		return nil, err
	}
	return n, nil
}

// plans finds the cards of a choice. A recording may come from anywhere: it names cards, never files.
func (j *Judge) plans(c maneuver.Choice, besides string) (*plan.Plan, []*plan.Plan, error) {
	for _, name := range []string{c.Maneuver, c.Aircraft} {
		if strings.HasSuffix(name, ".toml") {
			return nil, nil, fmt.Errorf("%q is a file, not the name of a card", name)
		}
	}
	j.Asked.apply(&c)
	o, err := j.Setup.Options(c, besides)
	return o.Coach.Plan, o.Auto, err
}

// By says by which cards a recording was judged.
func (j *Judge) By(rec *play.Recording, p *play.Player) *debrief.JudgedBy {
	from := debrief.FromConfig
	switch n, err := notes(rec); {
	case rec.Opening() != nil && p.Missing() == nil:
		from = debrief.FromRecord
	case n != nil && err == nil:
		from = debrief.FromSession
	}
	of := func(flag *string, name func(*maneuver.Choice) string) debrief.UsedCards {
		c := debrief.UsedCards{From: from}
		if flag != nil {
			c.From = debrief.FromFlag
		}
		for _, choice := range p.Choices() {
			if n := name(&choice); len(c.Names) == 0 || c.Names[len(c.Names)-1] != n {
				c.Names = append(c.Names, n)
			}
		}
		return c
	}
	return &debrief.JudgedBy{
		Maneuver: of(j.Asked.Maneuver, func(c *maneuver.Choice) string { return c.Maneuver }),
		Standard: of(j.Asked.Standard, func(c *maneuver.Choice) string { return c.Standard }),
		Aircraft: of(j.Asked.Aircraft, func(c *maneuver.Choice) string { return c.Aircraft }),
	}
}

// Notes are sentences on what could not be played as recorded.
func (j *Judge) Notes(p *play.Player) (said []phrase.Phrase) {
	if err := p.Missing(); err != nil {
		said = append(said, phrase.NotAsChosen.Of(phrase.Part("why", phrase.OfError(err))))
	}
	if n := p.Left(); n > 0 {
		said = append(said, phrase.LeftSenders.Of(phrase.Int("most", play.MostSenders), phrase.Int("datagrams", n)))
	}
	if n := p.Stats().Untimed; n > 0 {
		said = append(said, phrase.LeftUntimed.Of(phrase.Int("packets", n)))
	}
	return said
}
