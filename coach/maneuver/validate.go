package maneuver

import (
	"cmp"
	"fmt"
	"slices"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/valid"
)

func (c *Card) validate(v *valid.Validator) error {
	v.Name("name", c.Name)
	v.Words("title", c.Title, 40)
	v.Words("summary", c.Summary, 200)
	v.Words("standard", c.Standard, 20)
	v.Source("source", c.Source)
	if c.Block != "" {
		v.Name("block-of", c.Block)
	}
	v.Within("turn", c.Turn, 30, 1080)
	v.Within("limit", c.Limit, 5, 600)
	c.validateMeant(v)
	c.validateEntry(v)
	c.validatePhases(v)
	c.validateCheckpoints(v)
	c.validateProfile(v)
	c.validateReference(v)
	c.validateWatches(v)
	c.validateChecks(v)
	c.seriesChecks()
	c.orderCues()
	return v.Err()
}

// orderCues puts the cues of checkpoints and the others in the order of the turn.
func (c *Card) orderCues() {
	c.AllCues = nil
	for _, q := range c.Cues {
		c.AllCues = append(c.AllCues, Cue{Turn: q.Turn, Say: q.Say, Asks: q.Asks, Of: q.Turn})
	}
	for _, p := range c.Checkpoints {
		if p.Turn < c.Turn || !c.Several() {
			c.cue(&p, p.Turn)
			continue
		}
		for _, turn := range c.Meant.Turns { // the exit of each turn that may be meant
			c.cue(&p, turn)
		}
	}
	slices.SortStableFunc(c.AllCues, func(a, b Cue) int { return cmp.Compare(a.Turn, b.Turn) })
}

// cue adds that of a checkpoint at a turn angle; the words of an exit end a little before it.
func (c *Card) cue(p *Checkpoint, turn float64) {
	at := min(turn, c.Turn-ExitLead)
	if p.Turn == c.Turn {
		at = turn - ExitLead
	}
	c.AllCues = append(c.AllCues, Cue{Turn: at, Say: p.Cue, Asks: p.Asks, Of: turn})
}

// mostChoices is how many banks or turns a maneuver may leave a choice of.
const mostChoices = 8

// validateMeant checks what a leg may be meant to be.
func (c *Card) validateMeant(v *valid.Validator) {
	m := &c.Meant
	if m.From == 0 && len(m.Turns)+len(m.Banks)+len(m.Order) == 0 {
		return
	}
	v.Source("meant.source", m.Source)
	if m.From != 0 {
		v.Within("meant.exit-from", m.From, 5, c.Turn)
	}
	rising := func(key string, list []float64, low, high float64) {
		if len(list) > mostChoices {
			v.Fail(key, "has %d values; must have at most %d", len(list), mostChoices)
		}
		for i, x := range list {
			v.Within(key, x, low, high)
			if i > 0 && x <= list[i-1] {
				v.Fail(key, "has %g after %g; must rise", x, list[i-1])
			}
		}
	}
	rising("meant.turns", m.Turns, 10, 1800)
	rising("meant.banks", m.Banks, 5, 80)
	for i, s := range m.Order {
		key := fmt.Sprintf("meant.order[%d]", i)
		if !slices.Contains(m.Banks, s.Bank) {
			v.Fail(key+".bank", "is %g; must be one of meant.banks, %v", s.Bank, m.Banks)
		}
		if !slices.Contains(m.Turns, s.Turn) {
			v.Fail(key+".turn", "is %g; must be one of meant.turns, %v", s.Turn, m.Turns)
		}
	}
}

// validateEntry checks what holds before and around a leg.
func (c *Card) validateEntry(v *valid.Validator) {
	if c.Commit.Bank == 0 {
		v.Within("commit.nose", c.Commit.Nose, 1, 45)
		v.Within("commit.turned", c.Commit.Turned, 1, 45)
	} else {
		v.Within("commit.bank", c.Commit.Bank, 10, 80)
		v.Within("commit.turned", c.Commit.Turned, 0, 180)
		v.Within("commit.sinks", c.Commit.Sinks, 0, 5000)
		v.Within("commit.pivotal", c.Commit.Pivotal, 0, 10)
	}
	v.Source("commit.source", c.Commit.Source)
	v.Within("set-up.bank", c.Setup.Bank, 1, 20)
	v.Within("set-up.turn-rate", c.Setup.TurnRate, 0.1, 5)
	v.Within("set-up.vertical-speed", c.Setup.VerticalSpeed, 50, 3000)
	v.Within("set-up.spread", c.Setup.Spread, 0.5, 30)
	v.Within("set-up.airspeed", c.Setup.Airspeed, 1, 50)
	v.Within("set-up.ball", c.Setup.Ball, 0.05, 2)
	v.Source("set-up.source", c.Setup.Source)
	if c.Recovery.Time != 0 {
		v.Within("recovery.time", c.Recovery.Time, 1, 30)
		v.Source("recovery.source", c.Recovery.Source)
	}
	v.Within("series.legs", float64(c.Series.Legs), 1, 20)
	v.Within("series.gap", c.Series.Gap, 5, 600)
	if most := c.Series.Most; most != 0 {
		v.Within("series.most", float64(most), float64(c.Series.Legs), 20)
	}
	v.Source("series.source", c.Series.Source)
	v.Within("hard-deck.height", c.Deck.Height, 0, 20000)
	v.Source("hard-deck.source", c.Deck.Source)
	if c.Ground.About != "" {
		v.OneOf("ground.about", c.Ground.About, Center, Pylon)
		v.Source("ground.source", c.Ground.Source)
	}
	if c.Limits.Bank != 0 {
		v.Within("limits.bank", c.Limits.Bank, 20, 180)
		v.Source("limits.source", c.Limits.Source)
	}
}

func (c *Card) validatePhases(v *valid.Validator) {
	last := 0.0
	for i, p := range c.Phases {
		key := fmt.Sprintf("phase[%d]", i)
		v.Words(key+".name", p.Name, 30)
		if p.From != last || p.To <= p.From {
			v.Fail(key, "spans %g to %g; phases must follow each other without a gap from 0", p.From, p.To)
		}
		last = p.To
	}
	if n := len(c.Phases); n == 0 {
		v.Fail("phase", "is missing; a card must have phases that together span the turn of %g", c.Turn)
	} else if last != c.Turn {
		key := fmt.Sprintf("phase[%d].to", n-1)
		v.Fail(key, "is %g; the last phase must end with the turn of %g", last, c.Turn)
	}
}

// validateCheckpoints checks the checkpoints and the other cues.
func (c *Card) validateCheckpoints(v *valid.Validator) {
	last := 0.0
	for i, p := range c.Checkpoints {
		key := fmt.Sprintf("checkpoint[%d]", i)
		if p.Turn <= last || p.Turn > c.Turn {
			v.Fail(key+".turn", "is %g; checkpoints must rise from above 0 to the turn of %g", p.Turn, c.Turn)
		}
		v.Words(key+".words", p.Words, 60)
		v.Spoken(key+".cue", p.Cue)
		asks(v, key+".asks", p.Asks...)
		last = p.Turn
	}
	if n := len(c.Checkpoints); n == 0 {
		v.Fail("checkpoint", "is missing; a card must have at least the exit, at the turn of %g", c.Turn)
	} else if last != c.Turn {
		key := fmt.Sprintf("checkpoint[%d].turn", n-1)
		v.Fail(key, "is %g; the last checkpoint must be the exit, at the turn of %g", last, c.Turn)
	}
	for i, q := range c.Cues {
		v.Within(fmt.Sprintf("cue[%d].turn", i), q.Turn, 1, c.Turn)
		v.Spoken(fmt.Sprintf("cue[%d].say", i), q.Say)
		asks(v, fmt.Sprintf("cue[%d].asks", i), q.Asks...)
	}
}

func (c *Card) validateProfile(v *valid.Validator) {
	const three = "at least three knots, from 0 to the turn of %g"
	n := len(c.Profile)
	switch {
	case n == 0:
		v.Fail("profile", "is missing; a card must have "+three, c.Turn)
	case n < 3:
		v.Fail(fmt.Sprintf("profile[%d]", n-1), "is the last of %d; a card must have "+three, n, c.Turn)
	case c.Profile[0].Turn != 0 || c.Profile[n-1].Turn != c.Turn:
		v.Fail("profile[0].turn", "is %g, the last one %g; knots must run from 0 to the turn of %g",
			c.Profile[0].Turn, c.Profile[n-1].Turn, c.Turn)
	}
	for i, k := range c.Profile {
		key := fmt.Sprintf("profile[%d]", i)
		if i > 0 && k.Turn <= c.Profile[i-1].Turn {
			v.Fail(key+".turn", "is %g; knots must rise from 0 to the turn of %g", k.Turn, c.Turn)
		}
		v.Within(key+".bank", k.Bank, 0, 90)
		v.Within(key+".nose", k.Nose, -1, 1)
	}
}

// validateReference checks the reference path and the corridor around it.
func (c *Card) validateReference(v *valid.Validator) {
	v.OneOf("reference-path.slowest", c.Reference.Slowest, "apex", "stall", "entry", Level, Glide, Pivotal)
	v.Within("reference-path.plus", c.Reference.Plus, -50, 50)
	if s := c.Reference.Slowest; c.Reference.Own && s != Level && s != Glide && s != Pivotal {
		v.Fail("reference-path.own-speed", "is true with slowest = %q; must be left out unless that is %s", s,
			valid.Any([]string{Level, Glide, Pivotal}))
	}
	if power := c.Reference.Power; power != 0 {
		v.Within("reference-path.power", power, 0.5, 3)
		if c.Reference.Regains {
			v.Fail("reference-path.power", "is %g; must be left out, since regains-height finds the power", power)
		}
	}
	v.Source("reference-path.source", c.Reference.Source)
	v.Within("corridor.bank", c.Corridor.Bank, 1, 45)
	v.Within("corridor.nose", c.Corridor.Nose, 0.5, 30)
	v.Within("corridor.airspeed", c.Corridor.Airspeed, 1, 100)
	v.Within("corridor.height", c.Corridor.Height, 10, 2000)
	v.Source("corridor.source", c.Corridor.Source)
}

func (c *Card) validateWatches(v *valid.Validator) {
	for i, w := range c.Watches {
		key := fmt.Sprintf("watch[%d]", i)
		v.Name(key+".id", w.ID)
		v.OneOf(key+".channel", w.Channel, "bank", "pitch", "airspeed", "height", "ball", check.Power, check.OffPivotal)
		if w.Channel == "ball" || w.Channel == check.Power || w.Channel == check.OffPivotal {
			v.Within(key+".width", w.Width, 0.01, 500)
		} else {
			v.Within(key+".width", w.Width, 0, 500)
		}
		v.Within(key+".hold", w.Hold, 0.2, 10)
		v.Spoken(key+".high", w.High)
		v.Spoken(key+".low", w.Low)
		asks(v, key+".high-asks", w.HighAsks)
		asks(v, key+".low-asks", w.LowAsks)
		if w.From < 0 || w.To <= w.From || w.To > c.Turn {
			v.Fail(key+".from", "spans %g to %g; must rise, from 0 to at most the turn of %g", w.From, w.To, c.Turn)
		}
	}
}

// asks checks what a phrase asks of the pilot; a card may leave it out.
func asks(v *valid.Validator, key string, list ...callout.Ask) {
	for _, a := range list {
		if a != "" && !a.Known() {
			v.Fail(key, "is %q; must be %s", a, valid.Any(callout.Asks()))
		}
	}
}

func (c *Card) validateChecks(v *valid.Validator) {
	if len(c.Checks) == 0 {
		v.Fail("check", "is missing; a card must have at least one check")
	}
	seen := map[string]bool{}
	for i := range c.Checks {
		k := &c.Checks[i]
		key := fmt.Sprintf("check[%d]", i)
		v.Name(key+".id", k.ID)
		if seen[k.ID] {
			v.Fail(key+".id", "is %q, like that of a check before; must be an id of its own", k.ID)
		}
		seen[k.ID] = true
		for _, rule := range rules {
			if k.ID == rule.id && kinds.Of(k) != rule.kind {
				const must = "is %q, which is that of a check of kind %s; must be another id"
				v.Fail(key+".id", must, k.ID, rule.kind.Name)
			}
		}
		v.Words(key+".label", k.Label, 60)
		v.Source(key+".source", k.Source)
		v.Within(key+".weight", k.Weight, 0, 10)
		v.Spoken(key+".high", k.High)
		v.Spoken(key+".low", k.Low)
		k.MetBand, k.NearBand = check.ReadBands(v, key, k.Met, k.Near, k.Aim)
		k.ValidateLimit(v, key)
		kinds.Validate(v, key, k, c.Longest())
	}
	for i, k := range c.Checks {
		if k.Of != "" && (!seen[k.Of] || k.Of == k.ID) {
			v.Fail(fmt.Sprintf("check[%d].of", i), "is %q; must be the id of another check of this card", k.Of)
		}
	}
	c.validateSums(v)
}

// validateSums checks what only the checks together show: that they can give a score, and that what is compared from
// leg to leg is measured on a leg and not itself a comparison.
func (c *Card) validateSums(v *valid.Validator) {
	weight := 0.0
	for i, k := range c.Checks {
		weight += k.Weight
		j := slices.IndexFunc(c.Checks, func(o check.Spec) bool { return k.Of != "" && o.ID == k.Of })
		if j < 0 {
			continue
		}
		if of := kinds.Of(&c.Checks[j]); of.OfSeries() {
			v.Fail(fmt.Sprintf("check[%d].of", i),
				"is %q, of kind %s, which judges a series; must be the id of a check that judges a leg", k.Of, of.Name)
		}
	}
	if len(c.Checks) > 0 && weight == 0 {
		v.Fail("check[0].weight", "is 0, like that of every check; one at least must be above 0, or there is no score")
	}
}
