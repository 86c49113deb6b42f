package phrase

import "halfturn/stream/pack"

// Pack packs the phrase with its arguments, and with its text: a sentence may have been read from a record of another
// version.
func (p Phrase) Pack(w *pack.Writer) {
	w.String(p.code)
	w.String(p.text)
	if w.Bool(p.args != nil); p.args == nil {
		return
	}
	w.Uint(uint64(len(p.args)))
	for i := range p.args {
		a := &p.args[i]
		w.String(a.name)
		w.String(a.kind)
		w.Float(a.value)
		w.String(a.unit)
		w.Int(int64(a.digits))
		w.String(a.words)
		if w.Bool(a.phrases != nil); a.phrases == nil {
			continue
		}
		w.Uint(uint64(len(a.phrases)))
		for _, q := range a.phrases {
			q.Pack(w)
		}
	}
}

// Unpack reads a phrase that Pack wrote.
func (p *Phrase) Unpack(r *pack.Reader) {
	p.code, p.text = r.String(), r.String()
	if !r.Bool() {
		return
	}
	p.args = make([]Arg, r.Uint())
	for i := range p.args {
		a := &p.args[i]
		a.name, a.kind, a.value, a.unit = r.String(), r.String(), r.Float(), r.String()
		a.digits, a.words = int(r.Int()), r.String()
		if !r.Bool() {
			continue
		}
		a.phrases = make([]Phrase, r.Uint())
		for k := range a.phrases {
			a.phrases[k].Unpack(r)
		}
	}
}
