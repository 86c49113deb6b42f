package play

import (
	"context"
	"errors"
	"io"
	"net/netip"
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// Following says how the senders of a recording are followed.
type Following struct {
	// Options apply to a recording that does not say how it was followed.
	Options session.Options
	// Plans finds the cards that were chosen while the recording was flown; nil grades all of it by Options.
	Plans playback.Plans
	// Output returns the listener for the session of a sender; nil for none.
	Output func(sender netip.AddrPort) session.Output
	// Begun receives each session before its first datagram; nil for nobody.
	Begun func(*Flight)
	// Station replaces the name of the station in the recording; "" keeps that.
	Station string
	// Silence is how long a sender may be silent before another session of it begins; 0 sets no limit. A session of
	// Halfturn's own is never divided.
	Silence time.Duration
	// Over receives each session that a silence ended or that made room for another. It is required with Silence.
	Over func(*Flight)
	// Ends ends a session that is still under way with the last of its recording.
	Ends bool
	// Limits bound what is read; nil sets none.
	Limits *capture.Limits
	// Rate is how many rows a second a text log has that does not say the time; 0 where nobody said.
	Rate float64
}

// MostSenders is how many senders of one recording are followed. Beyond that, senders that sent nothing readable make
// room for others.
const MostSenders = 1024

// A Flight is one sender of a recording, and its session.
type Flight struct {
	*playback.Play
	Sender    netip.AddrPort
	Began     time.Time // when its first datagram was received
	Flew      time.Time // when its first sample was; zero before it
	Last      time.Time // when its last datagram was
	Datagrams uint64
	Output    session.Output // that listens to it
}

// A Player plays a recording: the same datagrams, times and choices give the results they gave live. It is not safe for
// concurrent use.
type Player struct {
	recording *Recording
	reader    *Reader
	follow    Following
	plans     playback.Plans // that find cards; those of follow note what was chosen too
	earlier   []string       // comments of the parts before
	goesOn    bool
	choices   []maneuver.Choice
	missing   error
	datagram  capture.Datagram
	flights   map[netip.AddrPort]*Flight
	order     []*Flight
	left      uint64
}

// Play begins to play a recording; Close ends it. The context ends Next.
func (r *Recording) Play(ctx context.Context, f Following) (*Player, error) {
	earlier, err := r.earlier(ctx)
	if err != nil {
		return nil, err
	}
	r.Log.Wire, r.Log.Rate = f.Options.Station.Wire, f.Rate
	p := &Player{recording: r, earlier: earlier, follow: f, goesOn: r.GoesOn() && !f.Ends,
		flights: map[netip.AddrPort]*Flight{}, reader: r.Read(ctx, f.Limits)}
	if f.Plans != nil {
		p.follow.Plans = p.noting
	}
	p.plans = f.Plans
	if r.opening != nil {
		p.follow.Silence = 0
		p.asRecorded(r.opening)
	}
	if o := &p.follow.Options; len(p.choices) == 0 {
		p.use(o.Coach.Plan, o.Auto)
	}
	return p, nil
}

// asRecorded follows as the recording says. Where its cards no longer exist, those of the options grade it.
func (p *Player) asRecorded(o *playback.Opening) {
	as, err := p.recording.Settle(p.follow.Options)
	if err == nil && p.plans != nil {
		var chosen session.Options
		if chosen, err = o.Options(as, p.follow.Plans); err == nil {
			as = chosen
		}
	}
	if p.missing = err; err != nil {
		p.follow.Plans = nil
	}
	p.follow.Options = as
	p.follow.Options.Name, p.follow.Options.Address = o.Station, o.Address
}

// Settle puts the settings of a session of Halfturn's own over options, whatever was flown in it. For another recording
// the options stay as they are.
func (r *Recording) Settle(o session.Options) (session.Options, error) {
	as := o
	if r.opening == nil {
		return o, nil
	}
	if err := r.opening.Settings.Apply(&as); err != nil {
		return o, err
	}
	return as, nil
}

// noting finds cards and notes which are used.
func (p *Player) noting(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	plan, auto, err := p.plans(c)
	if err == nil {
		p.use(plan, auto)
	}
	return plan, auto, err
}

func (p *Player) use(plan *plan.Plan, auto []*plan.Plan) {
	c := plan.Choice()
	if len(auto) > 0 {
		c.Maneuver = coach.AutoManeuver
	}
	if n := len(p.choices); (n == 0 || p.choices[n-1] != c) && n < mostEarlier {
		p.choices = append(p.choices, c)
	}
}

// Choices lists what the recording was graded by so far, in order; at least one.
func (p *Player) Choices() []maneuver.Choice { return p.choices }

// Missing says why a recording of Halfturn's own is not graded by what was chosen at its beginning; nil when it is.
func (p *Player) Missing() error { return p.missing }

// Left counts the datagrams left out because there were too many senders.
func (p *Player) Left() uint64 { return p.left }

// Stats counts what was met so far.
func (p *Player) Stats() capture.Stats { return p.reader.Stats() }

// Flights lists the sessions that were not ended by a silence, in the order in which they began.
func (p *Player) Flights() []*Flight { return p.order }

// Next reads the next datagram; io.EOF at the end. Its payload is valid until the next call.
func (p *Player) Next() (*capture.Datagram, error) {
	var err error
	p.datagram, err = p.reader.Next()
	return &p.datagram, err
}

// Feed gives the datagram read last to the session of its sender, after the commands recorded before it. The flight is
// nil when there are too many senders. The error reports a command that could not be followed; the datagram counts
// nevertheless.
func (p *Player) Feed() (*Flight, pipeline.Result, error) {
	d := &p.datagram
	s := p.flights[d.Source]
	if s != nil && p.follow.Silence > 0 && d.Received.Sub(s.Last) > p.follow.Silence {
		p.remove(s)
		s.Session.End(phrase.RecordingEnded.Of())
		p.follow.Over(s)
		s = nil
	}
	if s == nil {
		if len(p.flights) == MostSenders && !p.makeRoom() {
			p.left++
			return nil, pipeline.Result{}, nil
		}
		s = p.begin(d)
	}
	s.Last = d.Received
	s.Datagrams++
	result, err := s.Play.Feed(d.Payload, d.Seconds(), d.Comments)
	if s.Flew.IsZero() && (result.Outcome == pipeline.Accepted || result.Outcome == pipeline.Jumped) {
		s.Flew = d.Received
	}
	return s, result, err
}

// begin begins the session of a sender.
func (p *Player) begin(d *capture.Datagram) *Flight {
	o := p.follow.Options
	if p.recording.opening == nil {
		o.Name, o.Address = d.Source.String(), d.Source.String()
	}
	if p.recording.isLog {
		o.Name = Title(p.recording.Name)
	}
	if p.follow.Station != "" {
		o.Name = p.follow.Station
	}
	if p.follow.Output != nil {
		o.Output = p.follow.Output(d.Source)
	}
	s := &Flight{Play: playback.New(session.New(o), p.follow.Plans), Sender: d.Source, Began: d.Received,
		Output: o.Output}
	if p.recording.opening != nil {
		s.Student = p.recording.opening.Student
		_ = s.Precede(p.earlier) // what can no longer be followed was reported when it came
	}
	if p.follow.Begun != nil {
		p.follow.Begun(s)
	}
	p.flights[d.Source] = s
	p.order = append(p.order, s)
	return s
}

// makeRoom leaves out the sender that has sent nothing useful for longest.
func (p *Player) makeRoom() bool {
	var oldest *Flight
	for _, s := range p.flights {
		if !s.Session.Proven() && (oldest == nil || s.Last.Before(oldest.Last)) {
			oldest = s
		}
	}
	if oldest == nil {
		return false
	}
	p.remove(oldest)
	if p.follow.Over != nil {
		p.follow.Over(oldest)
	} else {
		p.left += oldest.Datagrams
	}
	return true
}

func (p *Player) remove(s *Flight) {
	delete(p.flights, s.Sender)
	p.order = slices.DeleteFunc(p.order, func(o *Flight) bool { return o == s })
}

// End ends the sessions, after the comments at the end of the recording. A session that is still under way is not
// ended. The error reports a command that could not be followed.
func (p *Player) End() (err error) {
	for _, s := range p.order {
		switch {
		case p.goesOn:
			err = errors.Join(err, s.Apply(p.reader.Rest()))
		case p.recording.opening != nil:
			err = errors.Join(err, s.Play.End(p.reader.Rest()))
		default:
			s.Session.End(phrase.RecordingEnded.Of())
		}
	}
	return err
}

// Report is what a sender has flown. In a session that is still under way, an unfinished leg does not count.
func (p *Player) Report(s *Flight) debrief.StationReport {
	if p.goesOn {
		return s.Session.SoFar()
	}
	return s.Session.Report()
}

// Rest returns the comments after the last datagram.
func (p *Player) Rest() []string { return p.reader.Rest() }

// Close closes the file that is open.
func (p *Player) Close() error { return p.reader.Close() }

// Run plays to the end, and calls also after each datagram, unless it is nil. What was played before an error counts.
// Commands that could not be followed are reported at the end.
func (p *Player) Run(also func(*Flight, pipeline.Result)) error {
	var failed error
	for {
		if _, err := p.Next(); err != nil {
			if !errors.Is(err, io.EOF) {
				failed = err
			}
			break
		}
		s, result, err := p.Feed()
		if err != nil && failed == nil {
			failed = err
		}
		if s != nil && also != nil {
			also(s, result)
		}
	}
	if err := p.End(); failed == nil {
		failed = err
	}
	return failed
}
