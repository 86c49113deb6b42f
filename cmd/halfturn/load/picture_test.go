package load

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A chart is one of the charts of the picture, over the number of stations.
type chart struct {
	title string
	of    func(figures) float64
	goal  float64 // a line across; NaN for none
	unit  string
}

var charts = []chart{
	{"Datagram to page, 99 of 100", func(f figures) float64 { return ms(f.p99) }, 20, "ms"},
	{"Datagrams lost", func(f figures) float64 { return 100 * f.lost() }, math.NaN(), "%"},
	{"Memory per station", figures.each, math.NaN(), "MiB"},
}

// Measures of the picture, px.
const (
	wide, high          = 300, 200 // of a chart
	left, top, under    = 44, 36, 34
	right, below, lines = 24, 8, 4
)

// picture draws the runs as SVG.
func picture(runs []figures) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" font-family="system-ui, sans-serif" `+
		`font-size="11" role="img" aria-label="How a server does with more and more stations">`+"\n",
		len(charts)*wide, high+below)
	fmt.Fprintf(&b, `<rect width="%d" height="%d" fill="#fff"/>`+"\n", len(charts)*wide, high+below)
	for i, c := range charts {
		c.draw(&b, float64(i*wide), runs)
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func (c chart) draw(b *strings.Builder, x0 float64, runs []figures) {
	most, across := 0.0, 0.0
	for _, f := range runs {
		most, across = max(most, c.of(f)), max(across, float64(f.stations))
	}
	if !math.IsNaN(c.goal) {
		most = max(most, 1.2*c.goal)
	}
	most = round(most)
	x := func(n float64) float64 { return x0 + left + n/max(across, 1)*(wide-left-right) }
	y := func(v float64) float64 { return top + (1-v/most)*(high-top-under) }
	fmt.Fprintf(b, `<text x="%.1f" y="18" font-size="13" font-weight="600" fill="#222">%s, %s</text>`+"\n",
		x0+8, c.title, c.unit)
	for i := range lines + 1 {
		v := most * float64(i) / lines
		fmt.Fprintf(b, `<path d="M%.1f %.1fH%.1f" stroke="#ddd"/>`, x(0), y(v), x(across))
		fmt.Fprintf(b, `<text x="%.1f" y="%.1f" text-anchor="end" fill="#555">%.3g</text>`+"\n", x(0)-5, y(v)+4, v)
	}
	if !math.IsNaN(c.goal) {
		fmt.Fprintf(b, `<path d="M%.1f %.1fH%.1f" stroke="#888" stroke-dasharray="5 4"/>`+"\n",
			x(0), y(c.goal), x(across))
	}
	var line strings.Builder
	for i, f := range runs {
		move := "L"
		if i == 0 {
			move = "M"
		}
		fmt.Fprintf(&line, "%s%.1f %.1f", move, x(float64(f.stations)), y(c.of(f)))
		fmt.Fprintf(b, `<circle cx="%.1f" cy="%.1f" r="3" fill="#1f4e8c"/>`+"\n", x(float64(f.stations)), y(c.of(f)))
	}
	fmt.Fprintf(b, `<path d="%s" fill="none" stroke="#1f4e8c" stroke-width="2"/>`+"\n", line.String())
	for _, n := range []float64{0, across / 2, across} {
		fmt.Fprintf(b, `<text x="%.1f" y="%d" text-anchor="middle" fill="#555">%.0f</text>`+"\n", x(n), high-18, n)
	}
	fmt.Fprintf(b, `<text x="%.1f" y="%d" text-anchor="middle" fill="#555">stations at %d Hz</text>`+"\n",
		x(across/2), high-4, rate)
}

// round is the next round number from v up: 1, 2 or 5 with zeros.
func round(v float64) float64 {
	if v <= 0 {
		return 1
	}
	unit := math.Pow(10, math.Floor(math.Log10(v)))
	for _, n := range []float64{1, 2, 5, 10} {
		if n*unit >= v*(1-1e-9) {
			return n * unit
		}
	}
	return 10 * unit
}

// TestPicture: every run has its place in each chart, within its bounds.
func TestPicture(t *testing.T) {
	runs := []figures{
		{stations: 100, p99: 2e6, memory: 50 << 20},
		{stations: 1000, p99: 30e6, memory: 500 << 20, unread: 5, sent: 100},
	}
	text := picture(runs)
	if n := strings.Count(text, "<circle"); n != len(runs)*len(charts) {
		t.Errorf("%d points; must be %d", n, len(runs)*len(charts))
	}
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, `cy="-`) {
		t.Error(text)
	}
	for v, want := range map[float64]float64{0: 1, 0.3: 0.5, 1: 1, 1.01: 2, 24: 50, 51: 100, 100: 100} {
		if got := round(v); got != want {
			t.Errorf("the round number from %g is %g; must be %g", v, got, want)
		}
	}
	if got := strings.Count(table(runs), "\n"); got != len(runs)+1 {
		t.Errorf("the table has %d lines", got)
	}
}
