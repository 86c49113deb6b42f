package check

// change gives exit minus entry.
type change struct {
	get   get
	name  string
	facts *Facts
}

func (*change) Step(*Moment) {}

func (c *change) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	now, ok := c.get(exit)
	then, had := c.get(&c.facts.Entry)
	if !ok || !had {
		return absent(c.name, c.facts, ok || had)
	}
	return value(now-then, exit.Turn)
}
