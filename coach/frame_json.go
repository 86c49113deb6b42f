package coach

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// AppendJSON appends the frame as encoding/json writes it, byte for byte, in a tenth of the time: thirty frames a
// second of each station are encoded between a datagram and the page. It fails where a number is none.
func (f *Frame) AppendJSON(b []byte) ([]byte, error) {
	w := jsonWriter{b: append(b, '{')}
	w.float(`"time":`, f.Time)
	w.text(`,"state":`, f.State)
	w.text(`,"direction":`, f.Direction)
	w.float(`,"turn":`, f.Turn)
	w.text(`,"phase":`, f.Phase)
	w.values(`,"values":`, f.Values)
	w.optional(`,"climb":`, f.Climb)
	w.optional(`,"stall":`, f.Stall)
	w.optional(`,"deck":`, f.Deck)
	w.optional(`,"point":`, f.Point)
	w.text(`,"pointBy":`, f.PointBy)
	w.optional(`,"pointDistance":`, f.PointFar)
	w.ground(f.Ground)
	w.line(f.Line)
	w.next(f.Next)
	w.cues(f.Cues)
	w.gates(f.Gates)
	w.flag(`,"ready":`, f.Ready)
	w.flag(`,"unclear":`, f.Unclear)
	return append(w.b, '}'), w.err
}

// A jsonWriter appends members of objects; it keeps the first error.
type jsonWriter struct {
	b   []byte
	err error
}

func (w *jsonWriter) raw(s string) { w.b = append(w.b, s...) }

func (w *jsonWriter) flag(key string, v bool) { w.b = strconv.AppendBool(append(w.b, key...), v) }

func (w *jsonWriter) optional(key string, v *float64) {
	if v == nil {
		w.raw(key)
		w.raw("null")
		return
	}
	w.float(key, *v)
}

// float writes a number as encoding/json does: as ECMAScript would, with e-7 for e-07.
func (w *jsonWriter) float(key string, v float64) {
	w.raw(key)
	if v-v != 0 {
		if w.err == nil {
			w.err = fmt.Errorf("the member %q is %v, which is no number in JSON", strings.Trim(key, `,:{"`), v)
		}
		return
	}
	format := byte('f')
	if size := math.Abs(v); size != 0 && (size < 1e-6 || size >= 1e21) {
		format = 'e'
	}
	w.b = strconv.AppendFloat(w.b, v, format, -1, 64)
	if n := len(w.b); format == 'e' && w.b[n-4] == 'e' && w.b[n-3] == '-' && w.b[n-2] == '0' {
		w.b = append(w.b[:n-2], w.b[n-1])
	}
}

func (w *jsonWriter) text(key, v string) {
	w.raw(key)
	if plain(v) {
		w.b = append(w.b, '"')
		w.raw(v)
		w.b = append(w.b, '"')
		return
	}
	quoted, _ := json.Marshal(v) // a string: cannot fail
	w.b = append(w.b, quoted...)
}

// plain tells whether encoding/json writes a string as it stands.
func plain(s string) bool {
	for _, r := range s {
		switch {
		case r < ' ', r == '"', r == '\\', r == '<', r == '>', r == '&', r == utf8.RuneError, r == '\u2028', r == '\u2029':
			return false
		}
	}
	return true
}

// values writes a map sorted by its keys.
func (w *jsonWriter) values(key string, m map[string]float64) {
	w.raw(key)
	if m == nil {
		w.raw("null")
		return
	}
	var few [len(shown)]string
	names := few[:0]
	for name := range m {
		names = append(names, name)
	}
	slices.Sort(names)
	open := "{"
	for _, name := range names {
		w.text(open, name)
		w.float(":", m[name])
		open = ","
	}
	if open == "{" {
		w.raw("{")
	}
	w.raw("}")
}

func (w *jsonWriter) ground(g *Ground) {
	if g == nil {
		w.raw(`,"ground":null`)
		return
	}
	w.float(`,"ground":{"along":`, g.Along)
	w.float(`,"across":`, g.Across)
	w.optional(`,"track":`, g.Track)
	w.optional(`,"drift":`, g.Drift)
	if g.Wind == nil {
		w.raw(`,"wind":null}`)
		return
	}
	w.float(`,"wind":{"from":`, g.Wind.From)
	w.float(`,"speed":`, g.Wind.Speed)
	w.raw("}}")
}

func (w *jsonWriter) line(l *Line) {
	if l == nil {
		w.raw(`,"line":null`)
		return
	}
	w.float(`,"line":{"heading":`, l.Heading)
	w.text(`,"side":`, l.Side)
	w.optional(`,"distance":`, l.Distance)
	w.float(`,"off":`, l.Off)
	w.raw("}")
}

func (w *jsonWriter) next(n *Next) {
	if n == nil {
		w.raw(`,"next":null`)
		return
	}
	w.float(`,"next":{"turn":`, n.Turn)
	w.text(`,"label":`, n.Label)
	w.text(`,"words":`, n.Words)
	w.text(`,"want":`, n.Want)
	w.optional(`,"seconds":`, n.Seconds)
	w.float(`,"point":`, n.Point)
	w.raw("}")
}

func (w *jsonWriter) cues(all []NextCue) {
	if all == nil {
		w.raw(`,"cues":null`)
		return
	}
	w.raw(`,"cues":[`)
	for i, c := range all {
		if i > 0 {
			w.raw(",")
		}
		w.float(`{"to":`, c.To)
		w.float(`,"seconds":`, c.Seconds)
		w.raw("}")
	}
	w.raw("]")
}

func (w *jsonWriter) gates(all []Gate) {
	if all == nil {
		w.raw(`,"gates":null`)
		return
	}
	w.raw(`,"gates":[`)
	for i := range all {
		g := &all[i]
		if i > 0 {
			w.raw(",")
		}
		w.text(`{"id":`, g.ID)
		w.text(`,"label":`, g.Label)
		w.text(`,"want":`, g.Want)
		w.optional(`,"value":`, g.Value)
		w.text(`,"unit":`, g.Unit)
		w.flag(`,"ok":`, g.OK)
		if g.Optional {
			w.raw(`,"optional":true`)
		}
		w.raw("}")
	}
	w.raw("]")
}
