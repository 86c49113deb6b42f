package practice

import (
	"slices"

	"halfturn/coach/message"
)

// Taps combines taps, of which any may be nil: each hears everything, in the order of the list. The result is nil when
// there is none.
func Taps(all ...Tap) Tap {
	all = slices.DeleteFunc(slices.Clone(all), func(t Tap) bool { return t == nil })
	switch len(all) {
	case 0:
		return nil
	case 1:
		return all[0]
	}
	return taps(all)
}

type taps []Tap

// Begin implements Tap.
func (all taps) Begin(b Beginning) {
	for _, t := range all {
		t.Begin(b)
	}
}

// Datagram implements Tap.
func (all taps) Datagram(session string, d Datagram) {
	for _, t := range all {
		t.Datagram(session, d)
	}
}

// End implements Tap.
func (all taps) End(session string) {
	for _, t := range all {
		t.End(session)
	}
}

// Stored implements Tap.
func (all taps) Stored(session, file string, size int64) {
	for _, t := range all {
		t.Stored(session, file, size)
	}
}

// Complete implements Tap.
func (all taps) Complete(session, file string) {
	for _, t := range all {
		t.Complete(session, file)
	}
}

// Over implements Tap.
func (all taps) Over(session string) {
	for _, t := range all {
		t.Over(session)
	}
}

// Private implements Tap.
func (all taps) Private(station string, on bool) {
	for _, t := range all {
		t.Private(station, on)
	}
}

// Shared implements Tap: the first that shares the station says how.
func (all taps) Shared(station string) *message.Share {
	for _, t := range all {
		if s := t.Shared(station); s != nil {
			return s
		}
	}
	return nil
}
