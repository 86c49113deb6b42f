package draft

import (
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"strings"

	"halfturn/coach"
	"halfturn/coach/measure"
	"halfturn/stream"
)

var notName = regexp.MustCompile(`[^a-z0-9]+`)

// NameOf makes the name of a card from that of a file: lower-case letters, digits and hyphens, a letter first.
func NameOf(file string) string {
	base, _, _ := strings.Cut(filepath.Base(file), ".pcap")
	name := strings.Trim(notName.ReplaceAllString(strings.ToLower(base), "-"), "-")
	if name == "" || name[0] >= '0' && name[0] <= '9' {
		name = "plane-" + name
	}
	return strings.Trim(name, "-")
}

// Aircraft writes an aircraft card as TOML, each number with where it comes from; what was not found is a comment. file
// is the
// recording, as the source to name.
func Aircraft(m *measure.Measurer, name, file string) string {
	var b strings.Builder
	for _, c := range coach.Cautions {
		fmt.Fprintf(&b, "# %s\n", c)
	}
	title := []rune(name)
	fmt.Fprintf(&b, "\nname = %q\ntitle = %q\nsource = %q\n", name, string(title[:min(len(title), 40)]),
		"measured from "+file)
	stall, at, reason := m.Stall()
	steady, others := m.Steady()
	entry, known := measure.Mean(steady, stream.Airspeed)
	if reason == "" && known && stall >= entry {
		reason = "the stall found is not below the steady speed"
	}
	if reason == "" {
		fmt.Fprintf(&b, "\n# The lowest airspeed over the root of the load factor, just before the nose dropped at "+
			"%.1f s.\n", at)
		fmt.Fprintf(&b, "stall = %.0f\n", stall)
	} else {
		fmt.Fprintf(&b, "\n# stall: not found, %s.\n", reason)
		if x := m.Lowest(); !math.IsInf(x, 1) {
			fmt.Fprintf(&b, "# It is at most about %.0f kt: so slow, at 1 g, was flown.\n", x)
		}
		b.WriteString("# To find it: slow down wings level, clean, power idle, until the nose drops, and record " +
			"that.\n")
	}
	if !known {
		b.WriteString("\n# entry, power: not found, no 4 s of steady level flight (bank within 5°, 300 ft/min, 2 " +
			"kt).\n")
	} else {
		entryLines(&b, steady, others, entry)
	}
	b.WriteString("\n# A recording does not show these; take them from the handbook or from a similar card (halfturn " +
		"cards list):\n" +
		"# apex, glide, ratio, never, load-max, load-min, bank-max, category, maneuvering, weight, max-weight, " +
		"engine, propeller\n")
	return b.String()
}

// entryLines write what steady flight tells.
func entryLines(b *strings.Builder, steady []measure.Stretch, others int, entry float64) {
	total := 0.0
	for i := range steady {
		total += steady[i].Duration
	}
	fmt.Fprintf(b, "\n# The speed flown steadily for longest: %.0f s in stretches: %d; stretches at other speeds: %d. ",
		total, len(steady), others)
	fmt.Fprintf(b, "Is it the entry speed?\nentry = %.0f\n", entry)
	words := power(steady)
	if words == "" {
		b.WriteString("# power: not found, the stream has no throttle, torque, N1 or rpm.\n")
		return
	}
	fmt.Fprintf(b, "# Mean over the same stretches.\npower = %q\n", words)
}

// power is the power setting of steady flight in words; "" when the stream has none.
func power(steady []measure.Stretch) string {
	var parts []string
	for _, p := range []struct {
		c      stream.Channel
		format string
		by     float64
	}{
		{stream.Torque, "%.0f %% torque", 1},
		{stream.N1, "%.0f %% N1", 1},
		{stream.RPM, "%.0f rpm", 1},
		{stream.Throttle, "throttle %.0f %%", 100},
	} {
		if v, ok := measure.Mean(steady, p.c); ok {
			parts = append(parts, fmt.Sprintf(p.format, v*p.by))
		}
	}
	return strings.Join(parts, ", ")
}
