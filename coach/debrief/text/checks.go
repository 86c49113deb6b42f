package text

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/debrief"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// checks prints one check per line, and those that were not measured in a line for each reason.
func (p *printer) checks(list []coach.Check) {
	t := layout.NewTable(p.w, layout.Below{Column: 4})
	why, reasons := map[string][]string{}, []string{}
	for _, k := range worstFirst(list) {
		value, note, label := p.value(k), p.in.Say(k.Reason), p.in.Text(k.Label)
		said := p.overruled(k)
		if said != "" && value == "" {
			fmt.Fprintf(t, "    %s\t%s\t%s\t\t%s\n", p.mark(k.Verdict), label, p.in.Word("not measured"), said)
			continue
		}
		if value == "" {
			if why[note] == nil {
				reasons = append(reasons, note)
			}
			why[note] = append(why[note], label)
			continue
		}
		if k.Verdict == coach.Near || k.Verdict == coach.Missed {
			note = p.in.Text(k.Words)
		}
		if said != "" {
			note = said
		}
		if !k.Note.IsZero() && note != "" {
			note += "; "
		}
		note += p.in.Say(k.Note)
		if k.Kind == "smoothness" && !p.smooth {
			p.smooth = true
			what := p.in.Word("spectral arc length, a number without a unit: −1.4 is one smooth movement, less is " +
				"rougher")
			note = strings.TrimPrefix(note+"; "+what, "; ")
		}
		wanted := p.wordf("wanted %s", wording.AimAndBand(p.in, wording.InPercent(k)))
		fmt.Fprintf(t, "    %s\t%s\t%s\t%s\t%s\n", p.mark(k.Verdict), label, value, wanted, note)
	}
	if err := t.Flush(); err != nil && p.err == nil {
		p.err = err
	}
	for _, reason := range reasons {
		p.line("    %s  %s", p.mark(coach.NotMeasured),
			p.wordf("%s: not measured, %s", strings.Join(why[reason], "; "), reason))
	}
}

// worstFirst lists the missed checks before the near ones, and those before the met ones, each in the order of the
// card.
func worstFirst(list []coach.Check) []*coach.Check {
	rank := map[string]int{coach.Missed: 0, coach.Near: 1, coach.Met: 2, coach.NotMeasured: 3}
	all := make([]*coach.Check, len(list))
	for i := range list {
		all[i] = &list[i]
	}
	slices.SortStableFunc(all, func(a, b *coach.Check) int { return rank[a.Verdict] - rank[b.Verdict] })
	return all
}

// mark is the mark of a verdict, with its shape where the screen shows it.
func (p *printer) mark(verdict string) string { return layout.Mark(p.w, verdict, mark(p.in, verdict)) }

// mark is the word of a verdict in a column of its own: all are as wide.
func mark(in *phrase.Language, verdict string) string {
	widest, word := 0, "–"
	for _, v := range []string{coach.Met, coach.Near, coach.Missed} {
		is := in.Say(debrief.InWords(v))
		widest = max(widest, utf8.RuneCountInString(is))
		switch {
		case v != verdict:
		case v == coach.Missed:
			word = strings.ToUpper(is)
		default:
			word = is
		}
	}
	return word + strings.Repeat(" ", widest-utf8.RuneCountInString(word))
}

// value writes what was measured with its unit, and the place where it is one of those that have one; "" is nothing.
func (p *printer) value(k *coach.Check) string {
	if k.Value == nil {
		return ""
	}
	if k.Unit == "legs" && *k.Value == 1 {
		return p.in.Word("1 leg")
	}
	v := wording.Value(p.in, wording.InPercent(k))
	if of := shareOf(p.in, k.Kind); of != "" { // its place is that of the worst moment, which a note names
		return v + " " + of
	}
	if placed := kinds.Named(k.Kind).Told == check.WithPlace || k.Unit != "°"; placed && k.At != nil && k.Turn == nil {
		v = p.wordf("%s at %s° of turn", v, p.in.Number(*k.At, 0))
	}
	return v
}

// shareOf says what the value of a kind is a share of; "" for a kind whose values are no shares.
func shareOf(in *phrase.Language, kind string) string {
	switch kind {
	case "share", "ball-centered", "pause":
		return in.Word("of the time")
	case "roll-ratio":
		return in.Word("of the roll-out rate")
	case "rhythm":
		return in.Word("of the quickest quarter")
	case "pace":
		return in.Word("of the planned time")
	case "gain":
		return in.Word("of the planned gain")
	case "up-down":
		return in.Word("of the height above")
	case "mirror":
		return in.Word("of the height gained")
	}
	return ""
}
