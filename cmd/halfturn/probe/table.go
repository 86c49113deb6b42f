package probe

import (
	"cmp"
	"fmt"
	"io"
	"maps"
	"math"
	"net/netip"
	"slices"
	"strconv"
	"strings"

	"halfturn/coach/probe"
)

// nothingCame says what to look at when nothing arrives on these addresses; asked is whether a simulator is asked for
// its values.
func nothingCame(where []netip.AddrPort, asked bool) string {
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
	var b strings.Builder
	fmt.Fprintf(&b, "Is the simulator's output switched on, and does it send to %s? ", strings.Join(list, " or "))
	if !open {
		fmt.Fprintf(&b, "From another machine, listen with %s and ", strings.Join(flags, " "))
	} else {
		b.WriteString("From another machine, ")
	}
	fmt.Fprintf(&b, "let the simulator send to this machine's address, port %s; a firewall may be in between. ",
		strings.Join(ports, " or "))
	if asked {
		b.WriteString("The simulator that was asked has not answered: is it running, " +
			"and does it take requests from this machine? ")
	} else {
		b.WriteString("A simulator that can be asked (X-Plane) needs no setting: --subscribe auto. ")
	}
	b.WriteString("The steps for each simulator: halfturn simulators list")
	return b.String()
}

// printProbe prints what is known of one sender.
func printProbe(w io.Writer, p *probe.Probe, card string, columns int) {
	name := p.Name
	if p.Name != p.Address {
		name += " (" + p.Address + ")"
	}
	fmt.Fprintf(w, "%s  %s\n", name, cmp.Or(p.Link, "nothing yet"))
	if p.Station.Format == "" {
		labeled(w, "format", fmt.Sprintf("not recognized, %d datagrams", p.Datagrams), columns)
	} else {
		labeled(w, "format", fmt.Sprintf("%s, %s (%.1f %% of %d datagrams read)", p.Station.Format, p.Sure, 100*p.Read,
			p.Datagrams), columns)
	}
	if !p.Detail.IsZero() {
		labeled(w, "", p.Detail.String(), columns)
	}
	clock := map[string]string{"simulator": "the simulator's clock", "receipt": "the time of receipt"}[p.Clock]
	rate := fmt.Sprintf("%.1f samples a second, jitter %.1f ms, last datagram %.1f s ago, timed by %s",
		p.Rate, p.Jitter, p.Age, clock)
	labeled(w, "rate", rate, columns)
	printCounts(w, p, columns)
	printValues(w, p, card, columns)
	if len(p.Todo) == 0 && p.Samples > 0 {
		fmt.Fprint(w, wrap(fmt.Sprintf("  All that the card %s needs is there.", card), columns, "  "))
	}
	for i, t := range p.Todo {
		labeled(w, fmt.Sprintf("to do %d", i+1), t.String(), columns)
	}
}

// labeled prints a text beside its label, the further lines below the first.
func labeled(w io.Writer, label, text string, columns int) {
	const indent = "           "
	lines := wrap(indent+text, columns, indent)
	fmt.Fprintf(w, "  %-9s%s", label, lines[len(indent):])
}

func printCounts(w io.Writer, p *probe.Probe, columns int) {
	parts := []string{}
	for _, reason := range slices.Sorted(maps.Keys(p.Drops)) {
		parts = append(parts, fmt.Sprintf("%d %s", p.Drops[reason], reason))
	}
	if len(parts) > 0 {
		labeled(w, "dropped", strings.Join(parts, ", "), columns)
	}
	if !p.Signs.IsZero() {
		labeled(w, "signs", p.Signs.String(), columns)
	}
}

// printValues prints the channels, as many beside each other as fit.
func printValues(w io.Writer, p *probe.Probe, card string, columns int) {
	if len(p.Values) == 0 && p.Samples == 0 {
		return
	}
	needed := map[string]bool{}
	cells := []string{}
	for _, n := range p.Needs {
		needed[n.Channel] = true
		if n.State == "missing" {
			cells = append(cells, fmt.Sprintf(cell, "* ", n.Title, "missing", ""))
		}
	}
	for i := range p.Values {
		cells = append(cells, valueCell(&p.Values[i], needed))
	}
	across := max((columns-1)/(cellWidth+1), 1)
	rows := (len(cells) + across - 1) / across
	says := fmt.Sprintf("  channels, with value and age; * needed by %s, ~ worked out here", card)
	fmt.Fprint(w, wrap(says, columns, "  "))
	for r := range rows {
		line := ""
		for c := r; c < len(cells); c += rows {
			line += " " + cells[c]
		}
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
}

func valueCell(v *probe.Value, needed map[string]bool) string {
	mark := " "
	if needed[v.Channel] {
		mark = "*"
	}
	if v.Derived {
		mark += "~"
	} else {
		mark += " "
	}
	value := number(v.Value, v.Channel) + " " + v.Unit
	switch v.Unit {
	case "ratio":
		value = number(v.Value, v.Channel)
	case "flag":
		value = map[bool]string{true: "yes", false: "no"}[v.Value != 0]
	}
	age := fmt.Sprintf("%.1fs", v.Age)
	if v.Age >= 99.95 {
		age = ">99s"
	}
	if v.Bad > 0 {
		age = fmt.Sprintf("%dbad", v.Bad)
	}
	return fmt.Sprintf(cell, mark, v.Title, value, age)
}

// A cell is marks, title, value and age.
const (
	cell      = "%s%-19s%12s%5s"
	cellWidth = 2 + 19 + 12 + 5
)

// number shows a value with about four digits; places need more.
func number(v float64, channel string) string {
	switch a := math.Abs(v); {
	case channel == "latitude" || channel == "longitude":
		return fmt.Sprintf("%.4f", v)
	case a >= 100:
		return fmt.Sprintf("%.0f", v)
	case a >= 10:
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.2f", math.Round(v*100)/100+0) // no minus zero
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
