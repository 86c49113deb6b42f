package queue

import (
	"errors"
	"slices"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// A Writer enters what is flown into an Archive from its own goroutine, so that coaching never
// waits for the disk. Of each session it keeps only the latest state that is still to be written: what
// waits is bounded by the sessions under way. What cannot be written waits and is tried again.
type Writer struct {
	archive *archive.Archive
	warn    func(error)
	told    said // what was passed to warn since all could be written
	taken   taken
	retry   <-chan time.Time
	wake    chan struct{}
	stop    chan struct{}
	done    chan struct{}
	writing prometheus.Histogram
	gate    func(id string) (fence uint64, err error) // nil: everything is entered

	mu       sync.Mutex
	work     map[string]*pending
	order    []string
	entering string    // the session that is being entered, which work lacks meanwhile
	away     time.Time // since when the logbook's database has been away; zero while it answers
}

// pending is what is still to be written of a session, in this order.
type pending struct {
	begin   *logbook.Entry
	report  func() *debrief.Report // makes it; nil is none
	student *named
	remarks []remarked
	ended   time.Time
	again   bool // the report was dropped: it is made from the folder once the logbook is back
	fence   uint64
	unsaved bool // something is not on the disk that would be lost with the program
	onDisk  bool // there is a file of it
}

// named is a student, and who named them.
type named struct {
	by   who.Who
	name string
}

// A remarked is a remark, and who made it.
type remarked struct {
	by     who.Who
	remark logbook.Remark
}

// mostRemarks is how many remarks wait for the disk, of a session; a session takes no more.
const mostRemarks = folder.MaxRemarks

// retryAfter is how long a failed write waits to be tried again.
const retryAfter = 5 * time.Second

// New starts a Writer, which goes on with what waited when the last one of the data directory ended. Warn is called
// from its goroutine with what cannot be written, once for a failure that repeats, and with a [*Taken] once for a
// session that another node has.
func New(a *archive.Archive, warn func(error)) *Writer {
	tick := time.NewTicker(retryAfter)
	w := newRetrying(a, warn, tick.C)
	go func() {
		<-w.done
		tick.Stop()
	}()
	return w
}

func newRetrying(a *archive.Archive, warn func(error), retry <-chan time.Time) *Writer {
	w := &Writer{
		archive: a,
		warn:    warn,
		retry:   retry,
		wake:    make(chan struct{}, 1),
		stop:    make(chan struct{}),
		done:    make(chan struct{}),
		work:    map[string]*pending{},
		told:    said{},
		taken:   newTaken(),
		writing: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name:    "halfturn_logbook_write_seconds",
			Help:    "How long it took to enter what was new of a session in its folder and the logbook.",
			Buckets: []float64{0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1, 3},
		}),
	}
	w.loadWaiting()
	if a.Away() != nil {
		w.away = time.Now()
	}
	go w.run()
	return w
}

// Gate has the writer ask before it enters anything of a session under which fence it may: when another node takes the
// session over after that, the logbook refuses what is entered under it. An ErrNotOurs drops what waits of the session;
// after another error it is asked again. It is called before anything is put.
func (w *Writer) Gate(ask func(id string) (fence uint64, err error)) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.gate = ask
}

// Collectors returns the metrics of the writer.
func (w *Writer) Collectors() []prometheus.Collector {
	return []prometheus.Collector{w.writing, w.taken.count, prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name: "halfturn_logbook_waiting_sessions",
		Help: "Sessions of which something waits to be entered in the logbook.",
	}, func() float64 {
		w.mu.Lock()
		defer w.mu.Unlock()
		return float64(w.waiting())
	})}
}

// Begin enters a session, as Archive.Begin.
func (w *Writer) Begin(e logbook.Entry) {
	w.put(e.ID, func(p *pending) { p.begin, p.unsaved = &e, true })
}

// Keep enters what was flown so far, as Archive.Keep. The report is not changed afterwards.
func (w *Writer) Keep(id string, r *debrief.Report) {
	w.KeepLater(id, func() *debrief.Report { return r })
}

// KeepLater is Keep of a report that is made when it is entered: most of its memory is needed only then. It may be made
// again, always the same, and from the goroutine of the writer.
func (w *Writer) KeepLater(id string, report func() *debrief.Report) {
	w.put(id, func(p *pending) { p.report = report })
}

// SetStudent notes who is flying, as Archive.SetStudent.
func (w *Writer) SetStudent(by who.Who, id, student string) {
	w.put(id, func(p *pending) { p.student, p.unsaved = &named{by, student}, true })
}

// Remark adds a remark, as Archive.Remark. It has a key, so that it is there once if it is tried again.
func (w *Writer) Remark(by who.Who, id string, r logbook.Remark) {
	w.put(id, func(p *pending) {
		if len(p.remarks) < mostRemarks {
			p.remarks, p.unsaved = append(p.remarks, remarked{by, r}), true
		}
	})
}

// End notes when a session was over, as Archive.End.
func (w *Writer) End(id string, ended time.Time) {
	w.put(id, func(p *pending) { p.ended, p.unsaved = ended, true })
}

func (w *Writer) put(id string, set func(*pending)) {
	w.mu.Lock()
	p := w.work[id]
	if p == nil {
		p = &pending{}
		w.work[id] = p
		w.order = append(w.order, id)
	}
	set(p)
	w.bound()
	w.mu.Unlock()
	w.GoOn()
}

// GoOn has entered soon what waited when the last program ended, once the gate is there.
func (w *Writer) GoOn() {
	select {
	case w.wake <- struct{}{}:
	default: // it is awake already
	}
}

// Close writes what is left, or warns about it, and waits for that.
func (w *Writer) Close() {
	close(w.stop)
	<-w.done
}

func (w *Writer) run() {
	defer close(w.done)
	failed := false // then only the retry, or the end, is waited for
	for {
		select {
		case <-w.wake:
			if failed {
				w.saveWaiting()
				continue
			}
		case <-w.retry:
		case <-w.stop:
			clear(w.told) // what stays unwritten now is reported in any case
			if !w.drain() {
				w.saveWaiting()
			}
			return
		}
		if failed = !w.drain(); failed {
			w.saveWaiting()
		}
	}
}

// drained notes that no session is being entered.
func (w *Writer) drained() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.entering = ""
}

// drain writes everything; false when something could not be written. While the logbook's database is away it tries one
// session and leaves the others for the next time.
func (w *Writer) drain() bool {
	defer w.drained()
	ok := true
	w.mu.Lock()
	ids := slices.Clone(w.order)
	w.mu.Unlock()
	for _, id := range ids {
		w.mu.Lock()
		p := w.work[id]
		delete(w.work, id)
		w.order = slices.DeleteFunc(w.order, func(s string) bool { return s == id })
		w.entering = id
		w.mu.Unlock()
		began := time.Now()
		fence, err := w.allowed(id)
		if err == nil {
			if fence > p.fence { // 0: nobody flies it any more
				p.fence, p.unsaved = fence, true
			}
			err = w.enter(w.archive.Under(p.fence), id, p)
			w.writing.Observe(time.Since(began).Seconds())
		}
		w.note(err, time.Now())
		if err != nil && w.isTaken(id, p.fence, err) {
			w.entered(id, p)
			continue
		}
		if err != nil {
			w.tell(err)
			if useless(err) {
				w.entered(id, p)
				continue
			}
			ok = false
			w.putBack(id, p)
			if errors.Is(err, logbook.ErrAway) { // each other session would wait for the same database
				return false
			}
			continue
		}
		w.entered(id, p)
	}
	if ok {
		clear(w.told)
	}
	return ok
}

// useless reports whether an error stays the same however often it is tried again.
func useless(err error) bool {
	var none *logbook.NotFound
	return errors.As(err, &none)
}

// allowed asks the gate.
func (w *Writer) allowed(id string) (fence uint64, err error) {
	w.mu.Lock()
	gate := w.gate
	w.mu.Unlock()
	if gate == nil {
		return 0, nil
	}
	return gate(id)
}

// tell warns once about a failure that repeats.
func (w *Writer) tell(err error) {
	if w.told.first(err.Error()) {
		w.warn(err)
	}
}

// enter writes what is pending, and clears each part once it is written.
func (w *Writer) enter(in archive.Under, id string, p *pending) error {
	if p.begin != nil {
		if err := in.Begin(*p.begin); err != nil {
			return err
		}
		p.begin = nil
	}
	if p.student != nil {
		if err := in.SetStudent(p.student.by, id, p.student.name); err != nil {
			return err
		}
		p.student = nil
	}
	for len(p.remarks) > 0 {
		_, err := in.Remark(p.remarks[0].by, id, p.remarks[0].remark)
		var refused *logbook.Refused
		if errors.As(err, &refused) { // trying again is useless
			w.tell(err)
		} else if err != nil {
			return err
		}
		p.remarks = p.remarks[1:]
	}
	if p.report != nil {
		if err := in.Keep(id, p.report()); err != nil {
			return err
		}
		p.report = nil
	}
	if !p.ended.IsZero() {
		if err := in.End(id, p.ended); err != nil {
			return err
		}
		p.ended = time.Time{}
	}
	if p.again {
		return in.Reenter(id)
	}
	return nil
}

// putBack keeps what could not be written, unless something newer has come since.
func (w *Writer) putBack(id string, old *pending) {
	w.mu.Lock()
	defer w.mu.Unlock()
	p := w.work[id]
	if p == nil {
		w.work[id] = old
		w.order = append(w.order, id)
		return
	}
	if p.begin == nil {
		p.begin = old.begin
	}
	if p.report == nil {
		p.report = old.report
	}
	if p.student == nil {
		p.student = old.student
	}
	p.remarks = append(old.remarks, p.remarks...)
	p.remarks = p.remarks[:min(len(p.remarks), mostRemarks)]
	if p.ended.IsZero() {
		p.ended = old.ended
	}
	p.again = p.again || old.again
	p.fence = max(p.fence, old.fence)
	p.unsaved, p.onDisk = true, p.onDisk || old.onDisk
}
