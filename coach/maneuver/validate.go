package maneuver

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"halfturn/configs/strict"
	"halfturn/stream"
)

func (c *Card) validate(f *strict.File) error {
	v := &validator{f: f}
	v.name("name", c.Name)
	v.words("title", c.Title, 40)
	v.words("summary", c.Summary, 200)
	v.words("standard", c.Standard, 20)
	v.needs("source", c.Source)
	v.within("turn", c.Turn, 30, 1080)
	v.within("limit", c.Limit, 5, 600)
	c.validateParts(v)
	c.validatePicture(v)
	c.validateChecks(v)
	c.seriesChecks()
	c.AllCues = nil
	for _, q := range c.Cues {
		c.AllCues = append(c.AllCues, Cue{q.Turn, q.Say, q.Turn})
	}
	for _, p := range c.Checkpoints {
		c.AllCues = append(c.AllCues, Cue{min(p.Turn, c.Turn-ExitLead), p.Cue, p.Turn})
	}
	slices.SortStableFunc(c.AllCues, func(a, b Cue) int { return cmp.Compare(a.Turn, b.Turn) })
	return v.err
}

func (c *Card) validateParts(v *validator) {
	if c.Commit.Bank == 0 {
		v.within("commit.nose", c.Commit.Nose, 1, 45)
		v.within("commit.turned", c.Commit.Turned, 1, 45)
	} else {
		v.within("commit.bank", c.Commit.Bank, 10, 80)
	}
	v.needs("commit.source", c.Commit.Source)
	v.within("set-up.bank", c.Setup.Bank, 1, 20)
	v.within("set-up.turn-rate", c.Setup.TurnRate, 0.1, 5)
	v.within("set-up.vertical-speed", c.Setup.VerticalSpeed, 50, 3000)
	v.within("set-up.spread", c.Setup.Spread, 0.5, 30)
	v.within("set-up.airspeed", c.Setup.Airspeed, 1, 50)
	v.within("set-up.ball", c.Setup.Ball, 0.05, 2)
	v.needs("set-up.source", c.Setup.Source)
	v.within("series.legs", float64(c.Series.Legs), 1, 20)
	v.within("series.gap", c.Series.Gap, 5, 600)
	v.needs("series.source", c.Series.Source)
	v.within("hard-deck.height", c.Deck.Height, 0, 20000)
	v.needs("hard-deck.source", c.Deck.Source)
	last := 0.0
	for i, p := range c.Phases {
		key := fmt.Sprintf("phase[%d]", i)
		v.words(key+".name", p.Name, 30)
		if p.From != last || p.To <= p.From {
			v.fail(key, "spans %g to %g; phases follow each other without a gap from 0", p.From, p.To)
		}
		last = p.To
	}
	if n := len(c.Phases); n == 0 {
		v.fail("phase", "is missing; a card has phases that together span the turn of %g", c.Turn)
	} else if last != c.Turn {
		v.fail(fmt.Sprintf("phase[%d].to", n-1), "is %g; the last phase ends with the turn of %g", last, c.Turn)
	}
}

func (c *Card) validatePicture(v *validator) {
	last := 0.0
	for i, p := range c.Checkpoints {
		key := fmt.Sprintf("checkpoint[%d]", i)
		if p.Turn <= last || p.Turn > c.Turn {
			v.fail(key+".turn", "is %g; checkpoints rise from above 0 to the turn of %g", p.Turn, c.Turn)
		}
		v.words(key+".words", p.Words, 60)
		v.spoken(key+".cue", p.Cue)
		last = p.Turn
	}
	if n := len(c.Checkpoints); n == 0 {
		v.fail("checkpoint", "is missing; a card has at least the exit, at the turn of %g", c.Turn)
	} else if last != c.Turn {
		v.fail(fmt.Sprintf("checkpoint[%d].turn", n-1), "is %g; the last checkpoint is the exit, at the turn of %g", last, c.Turn)
	}
	for i, q := range c.Cues {
		v.within(fmt.Sprintf("cue[%d].turn", i), q.Turn, 1, c.Turn)
		v.spoken(fmt.Sprintf("cue[%d].say", i), q.Say)
	}
	if n := len(c.Profile); n == 0 {
		v.fail("profile", "is missing; a card has at least three knots, from 0 to the turn of %g", c.Turn)
	} else if n < 3 {
		v.fail(fmt.Sprintf("profile[%d]", n-1), "is the last of %d knots; allowed: at least three, from 0 to the turn of %g", n, c.Turn)
	} else if first, last := c.Profile[0].Turn, c.Profile[n-1].Turn; first != 0 || last != c.Turn {
		v.fail("profile[0].turn", "is %g, the last one %g; knots run from 0 to the turn of %g", first, last, c.Turn)
	}
	for i, k := range c.Profile {
		if i > 0 && k.Turn <= c.Profile[i-1].Turn {
			v.fail(fmt.Sprintf("profile[%d].turn", i), "is %g; knots rise from 0 to the turn of %g", k.Turn, c.Turn)
		}
		v.within(fmt.Sprintf("profile[%d].bank", i), k.Bank, 0, 90)
		v.within(fmt.Sprintf("profile[%d].nose", i), k.Nose, -1, 1)
	}
	v.oneOf("reference-path.slowest", c.Reference.Slowest, "apex", "stall", "entry", "level")
	v.within("reference-path.plus", c.Reference.Plus, -50, 50)
	v.needs("reference-path.source", c.Reference.Source)
	v.within("corridor.bank", c.Corridor.Bank, 1, 45)
	v.within("corridor.nose", c.Corridor.Nose, 0.5, 30)
	v.within("corridor.airspeed", c.Corridor.Airspeed, 1, 100)
	v.within("corridor.height", c.Corridor.Height, 10, 2000)
	v.needs("corridor.source", c.Corridor.Source)
	for i, w := range c.Watches {
		key := fmt.Sprintf("watch[%d]", i)
		v.name(key+".id", w.ID)
		v.oneOf(key+".channel", w.Channel, "bank", "pitch", "airspeed", "ball", Power)
		if w.Channel == "ball" || w.Channel == Power {
			v.within(key+".width", w.Width, 0.01, 5)
		}
		v.within(key+".hold", w.Hold, 0.2, 10)
		v.spoken(key+".high", w.High)
		v.spoken(key+".low", w.Low)
		if w.From < 0 || w.To <= w.From || w.To > c.Turn {
			v.fail(key+".from", "spans %g to %g; allowed: rising, from 0 to at most the turn of %g", w.From, w.To, c.Turn)
		}
	}
}

func (c *Card) validateChecks(v *validator) {
	if len(c.Checks) == 0 {
		v.fail("check", "is missing; a card has at least one check")
	}
	seen := map[string]bool{}
	for i := range c.Checks {
		k := &c.Checks[i]
		key := fmt.Sprintf("check[%d]", i)
		v.name(key+".id", k.ID)
		if seen[k.ID] {
			v.fail(key+".id", "is %q, like that of a check before; allowed: an id of its own", k.ID)
		}
		seen[k.ID] = true
		for id, kind := range map[string]string{LegsID: "legs", SidesID: "directions"} {
			if k.ID == id && k.Kind != kind {
				v.fail(key+".id", "is %q, which is that of a check of kind %s; allowed: another id", id, kind)
			}
		}
		v.words(key+".label", k.Label, 60)
		v.needs(key+".source", k.Source)
		v.within(key+".weight", k.Weight, 0, 10)
		v.spoken(key+".high", k.High)
		v.spoken(key+".low", k.Low)
		k.MetBand, k.NearBand = v.bands(key, k.Met, k.Near, k.Aim)
		c.validateKind(v, key, k)
	}
	for i, k := range c.Checks {
		if k.Of != "" && (!seen[k.Of] || k.Of == k.ID) {
			v.fail(fmt.Sprintf("check[%d].of", i), "is %q; allowed: the id of another check of this card", k.Of)
		}
	}
	c.validateSums(v)
}

// validateSums checks what only the checks together show: that a score can come of them, and
// that what is compared from leg to leg is a thing of a leg, not itself a comparison.
func (c *Card) validateSums(v *validator) {
	weight := 0.0
	for i, k := range c.Checks {
		weight += k.Weight
		j := slices.IndexFunc(c.Checks, func(o Check) bool { return k.Of != "" && o.ID == k.Of })
		if j < 0 {
			continue
		}
		if of, _ := KindNamed(c.Checks[j].Kind); of.Series {
			v.fail(fmt.Sprintf("check[%d].of", i), "is %q, of kind %s, which judges a series; allowed: the id of a check that judges a leg", k.Of, of.Name)
		}
	}
	if len(c.Checks) > 0 && weight == 0 {
		v.fail("check[0].weight", "is 0, like that of every check, so that there is no score; allowed: at least one above 0")
	}
}

// validateKind checks that a check has the keys its kind needs and none that mean nothing to it.
func (c *Card) validateKind(v *validator, key string, k *Check) {
	kind, ok := KindNamed(k.Kind)
	if !ok {
		v.fail(key+".kind", "%s; allowed: %s", v.is(key+".kind", "%q", k.Kind), strings.Join(kindNames(), ", "))
		return
	}
	has := map[string]bool{
		"channel": k.Channel != "", "about": k.About != "", "turn": k.Turn != nil, "at": k.At != "",
		"from": k.From != nil, "to": k.To != nil, "extreme": k.Extreme != "", "cross": k.Cross != 0,
		"falling": k.Falling, "within": k.Within != 0, "smooth": k.Smooth != 0, "of": k.Of != "",
	}
	for _, need := range kind.Needs {
		if !has[need] {
			v.fail(key+"."+need, "is missing; a check of kind %s needs %s", kind.Name, strings.Join(kind.Needs, ", "))
		}
	}
	for _, name := range []string{"channel", "about", "turn", "at", "from", "to", "extreme", "cross", "falling", "within", "smooth", "of"} {
		if has[name] && !slices.Contains(kind.Needs, name) && !slices.Contains(kind.Allows, name) {
			v.fail(key+"."+name, "means nothing to a check of kind %s; it has %s", kind.Name, cmp.Or(strings.Join(slices.Concat(kind.Needs, kind.Allows), ", "), "none of these keys"))
		}
	}
	if k.Channel != "" {
		if _, ok := QuantityNamed(k.Channel); !ok {
			v.fail(key+".channel", "is %q; allowed: %s", k.Channel, strings.Join(quantityNames(), ", "))
		}
		if ch, ok := stream.ChannelNamed(k.Channel); ok && ch.Info().Circular && k.Kind != "value" {
			v.fail(key+".channel", "is %q, which starts again at 360°; allowed in a check of kind %s: turn", k.Channel, k.Kind)
		}
	}
	if k.About != "" {
		v.oneOf(key+".about", k.About, abouts...)
	}
	if k.Within != 0 {
		v.within(key+".within", k.Within, 0, 10000)
	}
	if k.Smooth != 0 {
		v.within(key+".smooth", k.Smooth, 0, 30)
	}
	if k.Extreme != "" {
		v.oneOf(key+".extreme", k.Extreme, "highest", "lowest")
	}
	if k.Kind == "smoothness" && k.Channel != "" {
		v.oneOf(key+".channel", k.Channel, "roll-rate", "pitch-rate", "yaw-rate")
	}
	if k.Kind == "ball-centered" && k.Channel != "" {
		v.oneOf(key+".channel", k.Channel, Slip, "ball")
	}
	if k.Kind == "value" {
		if (k.Turn == nil) == (k.At == "") {
			v.fail(key+".turn", "a check of kind value has one place; allowed: either turn, in °, or at = \"exit\"")
		}
		if k.At != "" {
			v.oneOf(key+".at", k.At, "exit")
		}
	}
	if k.Turn != nil {
		v.within(key+".turn", *k.Turn, 1, c.Turn)
	}
	if (k.From == nil) != (k.To == nil) {
		v.fail(key+".from", "has only one end; allowed: from and to, both or neither")
	}
	if k.From != nil && k.To != nil && !(*k.From >= 0 && *k.To > *k.From && *k.To <= c.Turn+60) {
		v.fail(key+".from", "spans %g to %g; allowed: rising, from 0 to at most %g", *k.From, *k.To, c.Turn+60)
	}
}
