// Command demoflights serves recorded flights as sessions, for the checks of the debrief
// pages. It is no part of Halfturn.
//
//	demoflights FOLDER [ADDRESS]
//
// Each capture file of the folder is a session by its name without the endings. It serves
// until its standard input ends.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/aircraft"
	"halfturn/coach/archive/play"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/hub"
	"halfturn/web/replay"
)

func main() {
	if len(os.Args) < 2 {
		fmt.Fprintln(os.Stderr, "usage: demoflights FOLDER [ADDRESS]")
		os.Exit(2)
	}
	addr := "127.0.0.1:0"
	if len(os.Args) > 2 {
		addr = os.Args[2]
	}
	if err := run(os.Args[1], addr); err != nil {
		fmt.Fprintln(os.Stderr, "demoflights:", err)
		os.Exit(1)
	}
}

func run(folder, addr string) error {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		return err
	}
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	log := zerolog.New(os.Stderr).Level(zerolog.WarnLevel)
	files := replay.Files{Find: func(id string) (replay.Recording, error) { return find(folder, lib, id) }}
	hub := hub.New("0.0.0-check", log)
	replays := replay.NewManager(files, hub, nil, log)
	srv := web.New(
		web.Config{Replays: replays, Flights: replay.NewFlights(files, nil, nil)},
		hub,
		&nobody{},
		prometheus.NewRegistry(),
		log,
	)
	ctx, stop := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- srv.Serve(ctx, l) }()
	fmt.Printf("listening http://%s\n", l.Addr())
	_, err = io.Copy(io.Discard, os.Stdin)
	replays.Close()
	stop()
	return errors.Join(err, <-served)
}

// models are the aircraft of the flights, with their speeds as measured; see coach/session.
var models = map[string]*aircraft.Aircraft{
	"turboprop-a": {Name: "turboprop-a", Title: "turboprop trainer A", Stall: 84, Entry: 220, Apex: 148},
	"turboprop-b": {Name: "turboprop-b", Title: "turboprop trainer B", Stall: 66, Entry: 155, Apex: 112},
	"jet":         {Name: "jet", Title: "jet trainer", Engine: "jet", Stall: 78, Entry: 220, Apex: 147},
	"single":      {Name: "single", Title: "light single", Stall: 49, Entry: 105, Apex: 74},
}

// find takes a file's name for its session, and what was flown in which aircraft from it.
func find(folder string, lib *maneuver.Library, id string) (replay.Recording, error) {
	paths, err := filepath.Glob(filepath.Join(folder, filepath.Base(id)+".pcap*"))
	if err != nil || len(paths) == 0 {
		return replay.Recording{}, &guard.Problem{
			Status: http.StatusNotFound,
			Phrase: phrase.Plain("there is no session " + id),
		}
	}
	name := "wing-over"
	for prefix, card := range map[string]string{"cc-": "chandelle-civil", "tc-": "chandelle-traditional",
		"ep-": "eights-on-pylons", "sp-": "steep-spiral", "tp-": "turn-pattern",
		"chandelle-traditional": "chandelle-traditional", "simulator-chandelle": "chandelle-civil"} {
		if strings.HasPrefix(id, prefix) {
			name = card
		}
	}
	card, err := lib.Card(name)
	if err != nil {
		return replay.Recording{}, err
	}
	var flown *aircraft.Aircraft
	for part, a := range models {
		if strings.Contains(id, part) {
			flown = a
		}
	}
	rec, err := play.Open(context.Background(), paths[0])
	return replay.Recording{Recording: rec, Following: play.Following{Options: session.Options{
		Coach: judge.Options{Plan: plan.New(card, flown)},
	}}}, err
}

// nobody is the desk of a server without live stations.
type nobody struct{ web.Desk }

// Cards lists none.
func (*nobody) Cards() web.Cards { return web.Cards{} }
