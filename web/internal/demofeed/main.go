// Command demofeed serves the pages with a made-up flight, one step a line of its standard
// input, for the checks of the pages. It is no part of Halfturn.
//
//	station [NAME]    a station comes, with a plan, in level flight
//	student NAME      somebody flies the station
//	level [ready]     a frame of level flight
//	keep [ready]      level flight on and on, twice a second, until the next step
//	fly FROM TO       a leg's frames, a degree each, with what is said between
//	steep FROM TO     the same, with far too much bank at the end
//	safety [ID WORDS] a limit is passed: the hard deck, or the one named
//	clear [ID]        it is no longer
//	finish            the leg is graded
//	series            the series is graded
//	plan NAME TITLE   another maneuver is to be flown
//	aircraft TITLE    another aircraft is to be flown, its corridor of bank steeper
//	link LINK         the station's link changes
//	missing CHANNEL   the station lacks a channel
//	unclear TURN      a frame of a leg to be found from what is flown, of which it is not clear yet what it is
//	advice            nothing of what the station sends can be read
//	said WORDS        an instructor speaks
//	company           the instructor and a guest watch, and the instructor chooses the maneuver
//	play [RATE]       fly on and on, at the pace of a clock, RATE frames a second (9)
//
// Each line is answered with "ok" when it is done.
package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/score"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/hub"
	"halfturn/web/internal/feed"
)

func main() {
	addr := "127.0.0.1:0"
	if len(os.Args) > 1 {
		addr = os.Args[1]
	}
	if err := run(addr); err != nil {
		fmt.Fprintln(os.Stderr, "demofeed:", err)
		os.Exit(1)
	}
}

func run(addr string) error {
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	log := zerolog.New(os.Stderr).Level(zerolog.WarnLevel)
	library, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		return err
	}
	p := &player{
		shipped:  library,
		hub:      hub.New("0.0.0-check", log),
		name:     "Seat 3",
		aircraft: "turboprop-trainer",
		maneuver: "wing-over",
		release:  func() {},
	}
	cfg := web.Config{Listen: []string{"127.0.0.1:7181"}, Machine: networked}
	srv := web.New(cfg, p.hub, p, prometheus.NewRegistry(), log)
	ctx, stop := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- srv.Serve(ctx, l) }()
	fmt.Printf("listening http://%s\n", l.Addr())
	in := bufio.NewScanner(os.Stdin)
	for in.Scan() {
		if err := p.do(strings.Fields(in.Text())); err != nil {
			fmt.Println("error", err)
			continue
		}
		fmt.Println("ok")
	}
	p.release()
	stop()
	return errors.Join(in.Err(), <-served)
}

// networked are this machine's addresses but loopback ones: the pages can be opened to whatever network it is in.
func networked() (list []netip.Addr) {
	all, _ := net.InterfaceAddrs() // without any there is no network to open to
	for _, a := range all {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && !n.IP.IsLoopback() {
			ip, _ := netip.AddrFromSlice(n.IP.To4())
			list = append(list, ip)
		}
	}
	return list
}

// A player sends made-up messages to a hub, and is its desk.
type player struct {
	hub                *hub.Hub
	shipped            *maneuver.Library
	name               string
	maneuver, aircraft string
	auto               bool
	now                float64
	legs               int
	last               *coach.Leg
	turn               float64
	release            func() // ends what keep began
}

// Probe tells of the made-up station's stream.
func (p *player) Probe(_ context.Context, station string) (any, bool) {
	return feed.Probe(p.name), station == p.name
}

func (p *player) event(body message.Body) {
	p.hub.Event(message.Message{Station: p.name, Body: body})
}

func (p *player) station(link string, change func(*message.Station)) {
	s := feed.Station(p.name, link)
	s.Maneuver, s.Auto, s.Aircraft = p.maneuver, p.auto, p.aircraft
	s.Session, s.Student, s.Recording = "", "", "" // there is no logbook here to ask
	if change != nil {
		change(s)
	}
	p.event(s)
}

func (p *player) level(ready bool) {
	p.now++
	p.turn = 0
	p.hub.Frame(p.name, feed.Level(p.now, ready))
}

func (p *player) do(words []string) error {
	p.release()
	if len(words) == 0 {
		return nil
	}
	switch args := words[1:]; words[0] {
	case "station":
		if len(args) > 0 {
			p.name = strings.Join(args, " ")
		}
		p.station("live", nil)
		p.event(feed.Plan())
		p.event(message.Phase{Phase: &coach.Phase{Time: p.now, Phase: "set-up"}})
		p.level(false)
	case "student":
		p.station("live", func(s *message.Station) { s.Student = strings.Join(args, " ") })
	case "level":
		p.level(len(args) > 0)
	case "keep":
		p.keep(len(args) > 0)
	case "fly":
		return p.flyLine(args, feed.Late)
	case "steep":
		return p.flyLine(args, feed.Steep)
	case "safety":
		p.unsafe(args)
	case "clear":
		p.say(&coach.Callout{Kind: coach.Clear, ID: cmp.Or(strings.Join(args, ""), "hard-deck")})
	case "recover":
		p.recover()
	case "finish":
		p.finish()
	case "series":
		p.series()
	case "incomplete":
		p.incomplete()
	case "link":
		p.station(args[0], nil)
	case "plan":
		plan := feed.Plan()
		plan.Maneuver, plan.Title = args[0], strings.Join(args[1:], " ")
		p.event(plan)
	case "aircraft":
		p.otherAircraft(strings.Join(args, " "))
	case "unclear":
		return p.unclear(args)
	case "missing":
		p.station("live", func(s *message.Station) { s.Missing = args })
	case "advice":
		p.station("live", func(s *message.Station) {
			s.Format, s.Rate, s.Channels, s.Derived = "", 0, []string{}, []string{}
			s.Advice = phrase.NothingReadable.Of()
		})
	case "play":
		return p.playLine(args)
	default:
		return p.person(words[0], args)
	}
	return nil
}

// mo is the instructor at the other end.
var mo = who.Who{ID: "u", Name: "Mo Example", Role: who.RoleInstructor}

// person does a step of the instructor's.
func (p *player) person(step string, args []string) error {
	switch step {
	case "said":
		p.say(&coach.Callout{Kind: coach.Said, ID: coach.Said, Words: strings.Join(args, " "), By: mo.Name})
	case "company":
		p.hub.Tell(message.Message{Station: p.name, Body: &message.Watching{Watchers: []who.Who{mo}, Nameless: 1}})
		p.event(&message.Acted{ID: "01J", Command: "choose", By: mo, At: time.Now(),
			Choice: &maneuver.Choice{Maneuver: p.maneuver}})
	default:
		return fmt.Errorf("unknown step %q", step)
	}
	return nil
}

// playLine begins to play at the rate of the line, 9 frames a second without one.
func (p *player) playLine(args []string) error {
	rate := 9.0
	if len(args) > 0 {
		var err error
		if rate, err = strconv.ParseFloat(args[0], 64); err != nil || rate <= 0 {
			return errors.New("play RATE, in frames a second")
		}
	}
	go p.play(rate)
	return nil
}

// unsafe says that a limit is passed: the hard deck, or the one named.
func (p *player) unsafe(args []string) {
	c := &coach.Callout{Kind: coach.Safety, ID: "hard-deck", Words: "Hard deck, climb", Tone: "safety"}
	if len(args) > 1 {
		c.ID, c.Words = args[0], strings.Join(args[1:], " ")
	}
	p.say(c)
}

// otherAircraft plans the maneuver in another aircraft, whose corridor of bank is steeper.
func (p *player) otherAircraft(title string) {
	plan := feed.Plan()
	plan.Aircraft = title
	for i := range plan.Lanes[0].Corridor {
		c := &plan.Lanes[0].Corridor[i]
		c.Low, c.Aim, c.High = c.Low+15, c.Aim+15, c.High+15
	}
	p.event(plan)
}

// keep sends level flight until it is released.
func (p *player) keep(ready bool) {
	stop, done := make(chan struct{}), make(chan struct{})
	p.release = func() {
		close(stop)
		<-done
		p.release = func() {}
	}
	go func() {
		defer close(done)
		tick := time.NewTicker(500 * time.Millisecond)
		defer tick.Stop()
		for {
			p.level(ready)
			select {
			case <-tick.C:
			case <-stop:
				return
			}
		}
	}()
}

// incomplete ends a series of one leg.
func (p *player) incomplete() {
	s := feed.Series()
	s.Legs, s.Verdict = []coach.Leg{*p.last}, coach.Missed
	s.Missing = phrase.Read("1 of 2 legs finished, one to the left is missing")
	s.Headline = score.SeriesHeadline(s)
	p.event(message.Series{Series: s.WithoutTraces()})
	p.legs = 0
}

func (p *player) say(c *coach.Callout) {
	c.Time, c.Turn = p.now, p.turn
	if c.Due != nil {
		due := p.now + *c.Due
		c.Due = &due
	}
	p.event(message.Callout{Callout: c})
}

func (p *player) flyLine(args []string, off func(turn float64) float64) error {
	if len(args) != 2 {
		return errors.New("fly FROM TO")
	}
	from, err := strconv.ParseFloat(args[0], 64)
	if err != nil {
		return err
	}
	to, err := strconv.ParseFloat(args[1], 64)
	if err != nil {
		return err
	}
	for turn := from; turn <= to; turn++ {
		p.at(turn, feed.Pace, off(turn))
	}
	return nil
}

// unclear sends a frame of a leg that may be of any maneuver.
func (p *player) unclear(args []string) error {
	if len(args) != 1 {
		return errors.New("unclear TURN")
	}
	turn, err := strconv.ParseFloat(args[0], 64)
	if err != nil {
		return err
	}
	p.auto = true
	p.station("live", nil)
	p.now++
	f := feed.At(p.now, turn, 0)
	f.Unclear, f.Phase, f.Next = true, "", nil
	p.hub.Frame(p.name, f)
	return nil
}

// at sends the frame of a turn angle after a time, with its bank off by some degrees, and what is
// said on the way there.
func (p *player) at(turn, after, off float64) {
	before := p.turn
	p.now += after
	p.turn = turn
	p.hub.Frame(p.name, feed.At(p.now, turn, off))
	for _, c := range feed.Callouts() {
		if c.Turn == turn || before < c.Turn && c.Turn < turn {
			p.say(c)
		}
	}
}

func (p *player) finish() {
	p.legs++
	direction := "right"
	if p.legs%2 == 0 {
		direction = "left"
	}
	leg := feed.Finished(p.legs, direction, p.now-25)
	p.event(message.Leg{Leg: leg})
	p.last = leg
	p.say(&coach.Callout{Kind: coach.Result, ID: "leg", Words: "Near. More bank at ninety", Tone: "missed"})
	f := feed.Level(p.now, true)
	f.State, f.Phase = "after", "after"
	p.hub.Frame(p.name, f)
}

// play flies leg after leg by the clock until the program ends.
func (p *player) play(rate float64) {
	tick := time.NewTicker(time.Duration(float64(time.Second) / rate))
	defer tick.Stop()
	for {
		for range int(rate) {
			p.now--
			p.level(true) // a second on
			p.now += 1 / rate
			<-tick.C
		}
		step := 1 / (rate * feed.Pace)
		for turn := step; turn < feed.Turn; turn += step {
			p.at(turn, 1/rate, feed.Late(turn))
			<-tick.C
		}
		p.finish()
		for range int(2 * rate) {
			<-tick.C
		}
	}
}
