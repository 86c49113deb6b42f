package probe

import (
	"fmt"
	"io"
	"maps"
	"math"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"halfturn/coach/probe"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// nothingCame says what to look at when nothing arrives on these addresses; asked is whether a simulator is asked for
// its values.
func nothingCame(in *phrase.Language, where []netip.AddrPort, asked bool) string {
	var ports, flags, list []string
	open := false // to the network
	for _, a := range where {
		list = append(list, a.String())
		open = open || a.Addr().IsUnspecified()
		if port := strconv.Itoa(int(a.Port())); !slices.Contains(ports, port) {
			ports = append(ports, port)
			flags = append(flags, "--udp :"+port)
		}
	}
	or := " " + in.Word("or") + " "
	says := []string{
		in.Wordf("Is the simulator's output switched on, and does it send to %s?", strings.Join(list, or)),
	}
	if port := strings.Join(ports, or); open {
		says = append(says, in.Wordf("From another machine, let the simulator send to this machine's address, port "+
			"%s; a firewall may be in between.", port))
	} else {
		says = append(says, in.Wordf("From another machine, listen with %s and let the simulator send to this "+
			"machine's address, port %s; a firewall may be in between.", strings.Join(flags, " "), port))
	}
	if asked {
		says = append(says, in.Word("The simulator that was asked has not answered: is it running, and does it take "+
			"requests from this machine?"))
	} else {
		says = append(says, in.Word("A simulator that can be asked (X-Plane) needs no setting: --subscribe auto."))
	}
	says = append(says, in.Word("The steps for each simulator: halfturn simulators list"))
	return strings.Join(says, " ")
}

// A table prints what is known of senders, in a language.
type table struct {
	w       io.Writer
	in      *phrase.Language
	card    string // name of the maneuver card that says what is needed
	columns int
}

// sender prints what is known of one sender.
func (t *table) sender(p *probe.Probe) {
	in := t.in
	name, link := p.Name, in.Word("nothing yet")
	if p.Name != p.Address {
		name += " (" + p.Address + ")"
	}
	if p.Link != "" {
		link = in.Word(p.Link)
	}
	fmt.Fprintf(t.w, "%s  %s\n", name, link)
	if p.Station.Format == "" {
		t.labeled(in.Word("format"), in.Wordf("not recognized, %d datagrams", p.Datagrams))
	} else {
		t.labeled(in.Word("format"), in.Wordf("%s, %s (%s %% of %d datagrams read)", in.Text(p.Station.Format),
			in.Word(p.Sure), in.Number(100*p.Read, 1), p.Datagrams))
	}
	if !p.Detail.IsZero() {
		t.labeled("", in.Say(p.Detail))
	}
	t.rate(p)
	t.counts(p)
	t.values(p)
	if len(p.Todo) == 0 && p.Samples > 0 {
		fmt.Fprint(t.w, wrap("  "+in.Wordf("All that the card %s needs is there.", t.card), t.columns, "  "))
	}
	for i, todo := range p.Todo {
		t.labeled(in.Wordf("to do %d", i+1), in.Say(todo))
	}
}

func (t *table) rate(p *probe.Probe) {
	in := t.in
	rate, jitter, age := in.Number(p.Rate, 1), in.Number(p.Jitter, 1), in.Number(p.Age, 1)
	says := in.Wordf("%s samples a second, jitter %s ms, last datagram %s s ago, timed by the time of receipt", rate,
		jitter, age)
	if p.Clock == "simulator" {
		says = in.Wordf("%s samples a second, jitter %s ms, last datagram %s s ago, timed by the simulator's clock",
			rate, jitter, age)
	}
	t.labeled(in.Word("rate"), says)
}

// labeled prints a text beside its label, the further lines below the first.
func (t *table) labeled(label, text string) {
	const width = 9
	indent := strings.Repeat(" ", 2+width)
	label += strings.Repeat(" ", max(width-utf8.RuneCountInString(label), 1))
	text = strings.Repeat(" ", 2+utf8.RuneCountInString(label)) + text
	lines := wrap(text, t.columns, indent)
	fmt.Fprintf(t.w, "  %s%s", label, strings.TrimLeft(lines, " "))
}

func (t *table) counts(p *probe.Probe) {
	parts := []string{}
	for _, reason := range slices.Sorted(maps.Keys(p.Drops)) {
		parts = append(parts, fmt.Sprintf("%d %s", p.Drops[reason], dropped(t.in, reason)))
	}
	if len(parts) > 0 {
		t.labeled(t.in.Word("dropped"), strings.Join(parts, ", "))
	}
	if !p.Signs.IsZero() {
		t.labeled(t.in.Word("signs"), t.in.Say(p.Signs))
	}
}

// dropped says why datagrams gave no sample: in English by the name of the counter.
func dropped(in *phrase.Language, reason string) string {
	if in == nil {
		return reason
	}
	return map[string]string{
		"duplicate":      in.Word("sent twice"),
		"late":           in.Word("late"),
		"empty":          in.Word("empty"),
		"unknown-format": in.Word("of an unknown format"),
		"no-labels":      in.Word("without labels"),
		"no-channels":    in.Word("without a channel"),
		"malformed":      in.Word("malformed"),
		"bad-value":      in.Word("with a value that cannot be"),
		"truncated":      in.Word("cut short"),
		"checksum":       in.Word("with a wrong checksum"),
		"encoding":       in.Word("not text"),
		"too-long":       in.Word("too long"),
		"format-changed": in.Word("of another format"),
		"other":          in.Word("other"),
	}[reason]
}

// values prints the channels, as many beside each other as fit.
func (t *table) values(p *probe.Probe) {
	if len(p.Values) == 0 && p.Samples == 0 {
		return
	}
	needed := map[string]bool{}
	cells := []string{}
	for _, n := range p.Needs {
		needed[n.Channel] = true
		if n.State == "missing" {
			cells = append(cells, cellOf("* ", t.in.Text(n.Title), t.in.Word("missing"), ""))
		}
	}
	for i := range p.Values {
		cells = append(cells, t.value(&p.Values[i], needed))
	}
	across := max((t.columns-1)/(cellWidth+1), 1)
	rows := (len(cells) + across - 1) / across
	says := t.in.Wordf("channels, with value and age; * needed by %s, ~ worked out here", t.card)
	fmt.Fprint(t.w, wrap("  "+says, t.columns, "  "))
	for r := range rows {
		line := ""
		for c := r; c < len(cells); c += rows {
			line += " " + cells[c]
		}
		fmt.Fprintln(t.w, strings.TrimRight(line, " "))
	}
}

func (t *table) value(v *probe.Value, needed map[string]bool) string {
	mark := " "
	if needed[v.Channel] {
		mark = "*"
	}
	if v.Derived {
		mark += "~"
	} else {
		mark += " "
	}
	value := number(t.in, v.Value, v.Channel) + " " + shortUnit(t.in, v.Unit)
	switch v.Unit {
	case "ratio":
		value = t.in.Number(100*v.Value, 0) + wording.UnitIn(t.in, "%")
	case "flag":
		value = t.in.Word("no")
		if v.Value != 0 {
			value = t.in.Word("yes")
		}
	}
	age := t.in.Number(v.Age, 1) + "s"
	if v.Age >= 99.95 {
		age = ">99s"
	}
	if v.Bad > 0 {
		age = t.in.Wordf("%dbad", v.Bad)
	}
	return cellOf(mark, t.in.Text(v.Title), value, age)
}

// shortUnit is a unit in a cell, which has no room for words.
func shortUnit(in *phrase.Language, unit string) string {
	if unit == "balls" {
		return in.Word("balls")
	}
	return unit
}

// cellOf lines up a cell. A title that is too long is cut.
func cellOf(mark, title, value, age string) string {
	if r := []rune(title); len(r) > titleWidth {
		title = string(r[:titleWidth-1]) + "…"
	}
	return fmt.Sprintf(cell, mark, title, value, age)
}

// A cell is marks, title, value and age.
const (
	cell       = "%s%-19s%12s%5s"
	titleWidth = 19
	cellWidth  = 2 + titleWidth + 12 + 5
)

// number shows a value with about four digits; places need more.
func number(in *phrase.Language, v float64, channel string) string {
	digits := 2
	switch a := math.Abs(v); {
	case channel == "latitude" || channel == "longitude":
		digits = 4
	case a >= 100:
		digits = 0
	case a >= 10:
		digits = 1
	}
	return in.Number(v, digits)
}

// wrap breaks a text into lines of at most columns-1 letters; all but the first begin with indent.
func wrap(text string, columns int, indent string) string {
	columns = max(columns-1, 40)
	var b strings.Builder
	lead := text[:len(text)-len(strings.TrimLeft(text, " "))]
	line, n := lead, 0
	for word := range strings.FieldsSeq(text) {
		if n > 0 && len([]rune(line))+1+len([]rune(word)) > columns {
			b.WriteString(line + "\n")
			line, n = indent, 0
		}
		if n > 0 {
			line += " "
		}
		line += word
		n++
	}
	b.WriteString(line + "\n")
	return b.String()
}
