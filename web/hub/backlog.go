package hub

// A backlog holds the latest events of a station as they are encoded, for viewers that come back. One that was away for
// longer than it reaches is sent the state of the station, which is of that size too.
type backlog struct {
	first  uint64 // number of the oldest event
	events [][]byte
	size   int // of all events, bytes
}

// restart forgets all events; seq is the number of the next one.
func (l *backlog) restart(seq uint64) { *l = backlog{first: seq} }

// add keeps the next event, and forgets the oldest ones where they are too many or too long.
func (l *backlog) add(data []byte) {
	l.events = append(l.events, data)
	l.size += len(data)
	for len(l.events) > eventsKept || l.size > bytesKept && len(l.events) > 1 {
		l.size -= len(l.events[0])
		l.events[0] = nil // the memory of the list lives on until it grows
		l.events = l.events[1:]
		l.first++
	}
}

// latest returns the newest event; nil where there is none.
func (l *backlog) latest() []byte {
	if len(l.events) == 0 {
		return nil
	}
	return l.events[len(l.events)-1]
}

// since lists the events after one; ok is false where some of them are forgotten, or the event is still to come.
func (l *backlog) since(seq uint64) (events [][]byte, ok bool) {
	next := l.first + uint64(len(l.events))
	if seq+1 < l.first || seq+1 > next {
		return nil, false
	}
	return append([][]byte{}, l.events[seq+1-l.first:]...), true
}
