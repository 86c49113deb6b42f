// Package measuring measures the aircraft that is flown at a station, together with its pilot, and writes its card into
// the user's folder of cards.
package measuring

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"halfturn/coach/aircraft"
	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/maneuver/draft"
	"halfturn/coach/measure"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// A Desk is where the stations are. A desk.Desk implements it.
type Desk interface {
	// Guide changes the measurement at a station, and returns where it stands and what is flown there.
	Guide(ctx context.Context, station string, change func(*measure.Guide) *measure.Guide) (
		p measure.Progress, c maneuver.Choice, ok bool, err error)
	// Aircraft lists the cards that can be chosen.
	Aircraft() []*aircraft.Aircraft
	// AddAircraft makes one more card one that can be chosen.
	AddAircraft(file string, text []byte) error
	// Do carries out a command.
	Do(ctx context.Context, c command.Command) error
}

// A Measuring measures aircraft. It is safe for concurrent use.
type Measuring struct {
	Desk   Desk
	Folder string // of the user's cards; it need not be there yet
}

// The steps that can be asked for.
const (
	Begin = "begin" // from the first task
	Next  = "next"  // go on without waiting
	Again = "again" // the present task once more
	Stop  = "stop"
)

// IsStep reports whether a word is one of them.
func IsStep(s string) bool { return s == Begin || s == Next || s == Again || s == Stop }

// Progress returns where the measurement at a station stands; ok is false when none goes on. The error is worded for
// whoever asks.
func (m *Measuring) Progress(ctx context.Context, station string) (p measure.Progress, ok bool, err error) {
	p, _, ok, err = m.Desk.Guide(ctx, station, func(g *measure.Guide) *measure.Guide { return g })
	return p, ok, err
}

// Step does a step, and returns where the measurement stands then.
func (m *Measuring) Step(ctx context.Context, station, step string) (p measure.Progress, ok bool, err error) {
	p, _, ok, err = m.Desk.Guide(ctx, station, func(g *measure.Guide) *measure.Guide {
		switch {
		case step == Stop:
			return nil
		case step == Begin || g == nil:
			return measure.NewGuide()
		case step == Next:
			g.Next()
		case step == Again:
			g.Again()
		}
		return g
	})
	return p, ok, err
}

// mostTitle is how long a title may be, in letters; see aircraft.Load.
const mostTitle = 40

// Write writes the card of what was measured at a station under a title, chooses it there and ends the measurement. It
// returns the name of the card and its file. The error is worded for whoever asks.
func (m *Measuring) Write(ctx context.Context, station, title string) (name, file string, err error) {
	title = strings.Join(strings.Fields(title), " ")
	if n := utf8.RuneCountInString(title); n == 0 || n > mostTitle {
		return "", "", phrase.MeasureNameless.Error()
	}
	keep := func(g *measure.Guide) *measure.Guide { return g }
	p, choice, ok, err := m.Desk.Guide(ctx, station, keep)
	switch {
	case err != nil:
		return "", "", err
	case !ok:
		return "", "", phrase.MeasureNothing.Error(phrase.Name("station", station))
	case p.Results.Entry == 0:
		return "", "", phrase.MeasureNotDone.Error()
	}
	name = draft.NameOf(title)
	known := m.Desk.Aircraft()
	taken := slices.ContainsFunc(known, func(a *aircraft.Aircraft) bool { return a.Name == name })
	if taken {
		return "", "", phrase.MeasureTaken.Error(phrase.Name("name", name))
	}
	text := []byte(draft.Guided(p.Results, name, title, draft.Nearest(known, p.Results)))
	file = filepath.Join(m.Folder, "aircraft", name+".toml")
	if err := m.keep(file, text); err != nil {
		return "", "", err
	}
	now := time.Now()
	choice.Aircraft = name
	err = m.Desk.Do(ctx, command.New(ids.New(now), now, station, who.Owner(), command.Choose{Choice: choice}))
	if err == nil {
		_, _, err = m.Step(ctx, station, Stop)
	}
	return name, file, err
}

// keep writes a card and puts it on the menu.
func (m *Measuring) keep(file string, text []byte) error {
	if _, err := aircraft.Load(file, text); err != nil {
		return phrase.MeasureBad.Error(phrase.Name("why", err.Error()))
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	if err := draft.Write(file, text); err != nil {
		if errors.Is(err, fs.ErrExist) {
			name := strings.TrimSuffix(filepath.Base(file), ".toml")
			return phrase.MeasureTaken.Error(phrase.Name("name", name))
		}
		return err
	}
	return m.Desk.AddAircraft(file, text)
}
