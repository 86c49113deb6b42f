package check

// change gives exit minus entry.
type change struct {
	get   get
	name  string
	entry *Moment
}

func (*change) Step(*Moment) {}

func (c *change) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	now, ok := c.get(exit)
	then, had := c.get(c.entry)
	if !ok || !had {
		return none("the stream has no %s", c.name)
	}
	return value(now-then, exit.Turn)
}
