package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"net/netip"
	"path/filepath"
	"regexp"
	"strings"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/station"
)

type cardsMeasure struct {
	common
	Recording string `arg:"" help:"Recording (a session's folder, or pcap or pcapng, also compressed by gzip or zstd) with some steady level flight at entry speed and power and, for the stall speed, a clean stall." type:"path"`
	Name      string `help:"Name of the card; made from the file's when left out." placeholder:"NAME"`
}

// Help says what to do with what is printed.
func (cardsMeasure) Help() string {
	return "Prints an aircraft card; what could not be found stands in it as a comment. Write it to a file (> my-plane.toml), look it over, and use it with --aircraft my-plane.toml. Of several senders the one with the most samples counts."
}

// Run measures an aircraft in a recording and prints its card.
func (c *cardsMeasure) Run(ctx context.Context, io streams) error {
	cfg, err := loadConfig(&c.common, io.env)
	if err != nil {
		return err
	}
	opt, err := cfg.stations()
	if err != nil {
		return err
	}
	rec, err := play.Open(ctx, c.Recording)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, plain(err))
	}
	as, err := rec.Settle(session.Options{Station: opt})
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, err)
	}
	m, err := measured(ctx, rec, as.Station)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, plain(err))
	}
	if c.Name == "" {
		c.Name = cardName(c.Recording)
	}
	_, err = io.out.Write([]byte(measuredCard(m, c.Name, filepath.Base(c.Recording))))
	return err
}

// measured measures the sender of a recording that sends most.
func measured(ctx context.Context, rec *play.Recording, opt station.Options) (*coach.Measurer, error) {
	r := rec.Read(ctx, nil)
	defer r.Close() // it was only read
	type sender struct {
		station *station.Station
		m       *coach.Measurer
		n       int
	}
	senders := map[netip.AddrPort]*sender{}
	var most *sender
	var err error
	for {
		var d capture.Datagram
		if d, err = r.Next(); err != nil {
			break
		}
		s := senders[d.Source]
		if s == nil {
			if len(senders) == play.MostSenders {
				continue
			}
			s = &sender{station: station.New(opt), m: coach.NewMeasurer()}
			senders[d.Source] = s
		}
		sample, result := s.station.Feed(d.Payload, d.Seconds())
		switch result.Outcome {
		case station.Jumped:
			s.m.Break()
		case station.Accepted:
			s.m.Step(sample)
			if s.n++; most == nil || s.n > most.n {
				most = s
			}
		}
	}
	switch {
	case ctx.Err() != nil:
		return nil, errInterrupted
	case !errors.Is(err, io.EOF):
		return nil, err
	case most == nil:
		return nil, errors.New("holds nothing that can be read; halfturn grade FILE says what is in it")
	}
	most.m.Break()
	return most.m, nil
}

var notName = regexp.MustCompile(`[^a-z0-9]+`)

// cardName makes the name of a card from that of a file.
func cardName(file string) string {
	base, _, _ := strings.Cut(filepath.Base(file), ".pcap")
	name := strings.Trim(notName.ReplaceAllString(strings.ToLower(base), "-"), "-")
	if name == "" || name[0] >= '0' && name[0] <= '9' {
		name = "plane-" + name
	}
	return strings.Trim(name, "-")
}

// measuredCard writes the card, each number with where it comes from.
func measuredCard(m *coach.Measurer, name, file string) string {
	var b strings.Builder
	for _, c := range coach.Cautions {
		fmt.Fprintf(&b, "# %s\n", c)
	}
	title := []rune(name)
	fmt.Fprintf(&b, "\nname = %q\ntitle = %q\nsource = %q\n", name, string(title[:min(len(title), 40)]), "measured from "+file)
	stall, at, reason := m.Stall()
	steady, others := m.Steady()
	entry, known := coach.Mean(steady, stream.Airspeed)
	if reason == "" && known && stall >= entry {
		reason = "the stall found is not below the steady speed"
	}
	if reason == "" {
		fmt.Fprintf(&b, "\n# The lowest airspeed over the root of the load factor, just before the nose dropped at %.1f s.\nstall = %.0f\n", at, stall)
	} else {
		fmt.Fprintf(&b, "\n# stall: not found, %s.\n", reason)
		if x := m.Lowest(); !math.IsInf(x, 1) {
			fmt.Fprintf(&b, "# It is at most about %.0f kt: so slow, at 1 g, was flown.\n", x)
		}
		b.WriteString("# To find it: slow down wings level, clean, power idle, until the nose drops, and record that.\n")
	}
	if !known {
		b.WriteString("\n# entry, power: not found, no 4 s of steady level flight (bank within 5°, 300 ft/min, 2 kt).\n")
	} else {
		measuredEntry(&b, steady, others, entry)
	}
	b.WriteString("\n# Not to be had from a recording; take them from the handbook or copy those of a like card (halfturn cards list):\n# apex, glide, ratio, never, load-max, load-min, bank-max, engine, propeller\n")
	return b.String()
}

// measuredEntry writes what steady flight tells.
func measuredEntry(b *strings.Builder, steady []coach.Stretch, others int, entry float64) {
	total := 0.0
	for i := range steady {
		total += steady[i].Duration
	}
	fmt.Fprintf(b, "\n# The speed flown steadily for longest: %.0f s in stretches: %d; stretches at other speeds: %d. Is it the entry speed?\nentry = %.0f\n", total, len(steady), others, entry)
	var parts []string
	for _, p := range []struct {
		c      stream.Channel
		format string
		by     float64
	}{{stream.Torque, "%.0f %% torque", 1}, {stream.N1, "%.0f %% N1", 1}, {stream.RPM, "%.0f rpm", 1}, {stream.Throttle, "throttle %.0f %%", 100}} {
		if v, ok := coach.Mean(steady, p.c); ok {
			parts = append(parts, fmt.Sprintf(p.format, v*p.by))
		}
	}
	if len(parts) == 0 {
		b.WriteString("# power: not found, the stream has no throttle, torque, N1 or rpm.\n")
		return
	}
	fmt.Fprintf(b, "# Mean over the same stretches.\npower = %q\n", strings.Join(parts, ", "))
}
