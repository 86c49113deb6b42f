package main

import (
	"fmt"
	"strings"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
)

// A judging says by which cards recordings are judged. Flags win over what was chosen while a recording was flown, or
// noted when it was taken in, and that over the configuration.
type judging struct {
	cfg   *config
	flags common
	today bool // by the cards of today, not by those that stand with a session
}

// follow says how a recording is followed.
func (j *judging) follow(rec *play.Recording) (play.Following, error) {
	cfg, err := j.config(rec)
	if err != nil {
		return play.Following{}, err
	}
	opt, err := cfg.session()
	if err != nil && j.stood(rec) { // its cards are of an older version, and not understood any more
		without := judging{j.cfg, j.flags, true}
		return without.follow(rec)
	}
	return play.Following{Options: opt, Plans: func(c maneuver.Choice) (*coach.Plan, []*coach.Plan, error) {
		return j.plans(*cfg, c)
	}}, err
}

// stood tells whether a recording is judged by cards that stand with it.
func (j *judging) stood(rec *play.Recording) bool {
	return !j.today && len(j.flags.Cards) == 0 && rec.Dir != ""
}

// config is the configuration for a recording that says nothing itself.
func (j *judging) config(rec *play.Recording) (*config, error) {
	cfg := *j.cfg
	if j.stood(rec) {
		cfg = cfg.withCardsOf(rec.Dir)
	}
	n, err := j.notes(rec)
	if err != nil {
		return nil, err
	}
	if n != nil {
		cfg.Maneuver, cfg.Aircraft, cfg.from = n.Maneuver, n.Aircraft, origins{}
		if n.Standard != "" {
			cfg.Standard = n.Standard
		}
	}
	j.byFlags(&cfg)
	return &cfg, nil
}

// notes are those of a session that was taken in, which its recording lacks; nil when there are none.
func (j *judging) notes(rec *play.Recording) (*archive.Notes, error) {
	if rec.Dir == "" || rec.Opening() != nil {
		return nil, nil
	}
	n, err := archive.ReadNotes(rec.Dir)
	if err != nil || n == nil || n.Maneuver == "" {
		return nil, err
	}
	return n, nil
}

func (j *judging) byFlags(cfg *config) {
	set(&cfg.Maneuver, j.flags.Maneuver)
	set(&cfg.Standard, j.flags.Standard)
	set(&cfg.Aircraft, j.flags.Aircraft)
}

// plans finds the cards of a choice. A recording may come from anywhere: it names cards, never files.
func (j *judging) plans(cfg config, c maneuver.Choice) (*coach.Plan, []*coach.Plan, error) {
	for _, name := range []string{c.Maneuver, c.Aircraft} {
		if strings.HasSuffix(name, ".toml") {
			return nil, nil, fmt.Errorf("%q is a file, not the name of a card", name)
		}
	}
	cfg.Maneuver, cfg.Standard, cfg.Aircraft, cfg.from = c.Maneuver, c.Standard, c.Aircraft, origins{}
	j.byFlags(&cfg)
	o, err := cfg.session()
	return o.Coach.Plan, o.Auto, err
}

// by says by which cards a recording was judged.
func (j *judging) by(rec *play.Recording, p *play.Player) *debrief.By {
	from := debrief.FromConfig
	switch n, err := j.notes(rec); {
	case rec.Opening() != nil && p.Missing() == nil:
		from = debrief.FromRecord
	case n != nil && err == nil:
		from = debrief.FromSession
	}
	of := func(flag *string, name func(*maneuver.Choice) string) debrief.Chosen {
		c := debrief.Chosen{From: from}
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
	return &debrief.By{
		Maneuver: of(j.flags.Maneuver, func(c *maneuver.Choice) string { return c.Maneuver }),
		Standard: of(j.flags.Standard, func(c *maneuver.Choice) string { return c.Standard }),
		Aircraft: of(j.flags.Aircraft, func(c *maneuver.Choice) string { return c.Aircraft }),
	}
}

// notesOf are sentences on what was not played as it was recorded.
func notesOf(p *play.Player) (notes []string) {
	if err := p.Missing(); err != nil {
		notes = append(notes, fmt.Sprintf("the recording is not judged by what was chosen while it was flown: %v", err))
	}
	if n := p.Left(); n > 0 {
		notes = append(notes, fmt.Sprintf("datagrams left out of senders beyond the first %d: %d", play.MostSenders, n))
	}
	if n := p.Stats().Untimed; n > 0 {
		notes = append(notes, fmt.Sprintf("packets left out because a wrong clock says they were received before 1970 or after 2261: %d", n))
	}
	return notes
}
