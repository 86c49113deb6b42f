package main

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/session"
	"halfturn/stream/capture"
)

type sessionsImportCmd struct {
	common
	Data   string   `help:"Data directory." placeholder:"DIR" type:"path"`
	Files  []string `arg:"" name:"file" help:"Captures (pcap or pcapng, also gzipped), or folders of them." type:"path"`
	Format string   `help:"How what was imported is listed: text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (sessionsImportCmd) Help() string {
	return "A capture gives a session for each sender, and a new one after each break of session-idle. The same flight twice is noticed and not doubled. " +
		"A stream that cannot be graded is kept all the same and listed with why. The captures themselves are not changed."
}

// An imported is one session as it was taken in; import.json in its folder.
type imported struct {
	Session string `json:"session"` // its name; of a double, that of the one there
	File    string `json:"file"`
	Sender  string `json:"sender"`
	Hash    string `json:"hash"` // SHA-256 of sender, times and datagrams
	Double  bool   `json:"double,omitempty"`
	Legs    int    `json:"legs"`
	Why     string `json:"notGradable,omitempty"` // why it cannot be graded
}

// Run takes the captures in. One that fails does not keep the others out.
func (c *sessionsImportCmd) Run(ctx context.Context, s streams) (err error) {
	cfg, err := loadConfig(&c.common, s.env)
	if err != nil {
		return err
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	data, err := dataOf(cfg, c.Data, s)
	if err != nil {
		return err
	}
	files, err := recordings(c.Files)
	if err != nil {
		return err
	}
	book, err := logbook.Open(data, logbook.Options{Version: version, Regrade: cfg.regrader()})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	in := &importer{book: book, cfg: cfg, opt: opt, idle: cfg.Idle.Duration, known: knownImports(book.Dir()), done: []imported{}}
	bar := newProgress(s.err, len(files))
	var failed error
	for _, name := range files {
		if ctx.Err() != nil {
			failed = errors.Join(failed, errInterrupted)
			break
		}
		if err := in.file(ctx, name, name); err != nil {
			failed = errors.Join(failed, fmt.Errorf("%s: %w", name, err))
		}
		bar.step(name)
	}
	bar.clear()
	return errors.Join(c.list(s.out, in.done), failed)
}

func (c *sessionsImportCmd) list(w io.Writer, done []imported) error {
	if c.Format == "json" {
		return writeIndented(w, map[string]any{"version": 1, "sessions": done})
	}
	for _, d := range done {
		text := count(d.Legs, "leg")
		switch {
		case d.Double:
			text = "is there already, nothing was added"
		case d.Why != "":
			text = "kept, not gradable: " + d.Why
		}
		if _, err := fmt.Fprintf(w, "%s  %s (from %s in %s)\n", d.Session, text, d.Sender, filepath.Base(d.File)); err != nil {
			return err
		}
	}
	return nil
}

// knownImports maps the hashes of what was imported to the sessions.
func knownImports(dir string) map[string]string {
	known := map[string]string{}
	files, _ := filepath.Glob(filepath.Join(dir, "*", "import.json")) // the pattern is a good one
	for _, name := range files {
		var d imported
		if data, err := os.ReadFile(name); err == nil && json.Unmarshal(data, &d) == nil && d.Hash != "" {
			known[d.Hash] = filepath.Base(filepath.Dir(name))
		}
	}
	return known
}

// An importer copies the datagrams of captures into sessions.
type importer struct {
	book  *logbook.Book
	cfg   *config
	opt   session.Options
	idle  time.Duration
	known map[string]string
	done  []imported
}

// An incoming is a session being copied.
type incoming struct {
	dir         string // where it grows, until it is whole
	file        *os.File
	writer      *capture.Writer
	sum         hash.Hash
	began, last time.Time
	sender      netip.AddrPort
}

// file takes in one capture, which is called as it is by whoever gave it.
func (in *importer) file(ctx context.Context, path, name string) (err error) {
	f, err := os.Open(path)
	if err != nil {
		return plain(err)
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		return err
	}
	growing := map[netip.AddrPort]*incoming{}
	var order []*incoming
	defer func() {
		for _, g := range order {
			if growing[g.sender] == g {
				err = errors.Join(err, in.finish(g, name))
			}
		}
	}()
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			return errInterrupted
		}
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		g := growing[d.Source]
		if g != nil && d.Received.Sub(g.last) > in.idle {
			delete(growing, d.Source)
			if err := in.finish(g, name); err != nil {
				return err
			}
			g = nil
		}
		if g == nil {
			if len(growing) == mostImported {
				continue
			}
			if g, err = in.begin(&d); err != nil {
				return err
			}
			growing[d.Source] = g
			order = append(order, g)
		}
		if err := g.add(&d); err != nil {
			return fmt.Errorf("the session cannot be written: %w", err)
		}
	}
}

// mostImported is how many senders of one capture are taken in at once: each has a file open.
const mostImported = 256

func (in *importer) begin(d *capture.Datagram) (*incoming, error) {
	dir, err := os.MkdirTemp(in.book.Dir(), ".import-*")
	if err != nil {
		return nil, err
	}
	f, err := os.Create(filepath.Join(dir, "stream-0001.pcapng"))
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	w, err := capture.NewWriter(f, "halfturn "+version, "import", "")
	if err != nil {
		return nil, errors.Join(err, f.Close(), os.RemoveAll(dir))
	}
	return &incoming{dir: dir, file: f, writer: w, sum: sha256.New(), began: d.Received, sender: d.Source}, nil
}

// add copies a datagram.
func (g *incoming) add(d *capture.Datagram) error {
	g.last = d.Received
	var head [12]byte
	binary.BigEndian.PutUint64(head[:], uint64(d.Received.UnixMicro()))
	binary.BigEndian.PutUint32(head[8:], uint32(len(d.Payload)))
	g.sum.Write(head[:])
	g.sum.Write(d.Payload)
	return g.writer.Write(d)
}

// finish closes a session, grades it, and puts it among the others unless it is there already.
func (in *importer) finish(g *incoming, from string) (err error) {
	defer func() { err = errors.Join(err, os.RemoveAll(g.dir)) }()
	if err := errors.Join(g.writer.Flush(), g.file.Sync(), g.file.Close()); err != nil {
		return err
	}
	fmt.Fprint(g.sum, g.sender)
	d := imported{File: from, Sender: g.sender.String(), Hash: hex.EncodeToString(g.sum.Sum(nil))}
	if id, ok := in.known[d.Hash]; ok {
		d.Session, d.Double = id, true
		in.done = append(in.done, d)
		return nil
	}
	rec := &recorded{name: filepath.Base(from), files: []string{filepath.Join(g.dir, "stream-0001.pcapng")}}
	all, err := fly(rec, in.opt)
	if err != nil {
		return err
	}
	for _, f := range all {
		d.Legs += len(f.Legs)
		if f.Report.Samples == 0 {
			d.Why = or(f.Report.Advice, "no known format was recognized in it")
		}
	}
	if d.Session, err = in.book.NewID(g.began, g.sender.String()); err != nil {
		return err
	}
	rec.name = d.Session
	dir := filepath.Join(in.book.Dir(), d.Session)
	if err := os.Rename(rec.files[0], filepath.Join(dir, "stream-0001.pcapng")); err != nil {
		return err
	}
	report := reportOf(rec, all)
	report.Session = &debrief.Session{ID: d.Session, Began: g.began.UTC().Format(time.RFC3339), Ended: g.last.UTC().Format(time.RFC3339)}
	if _, err := in.book.Save(d.Session, report); err != nil {
		return err
	}
	if err := in.enter(g, d.Session, report); err != nil {
		return err
	}
	if err := writeSafely(filepath.Join(dir, "import.json"), false, func(w io.Writer) error { return writeIndented(w, d) }); err != nil {
		return err
	}
	in.known[d.Hash] = d.Session
	in.done = append(in.done, d)
	return nil
}

// enter puts the session into the logbook.
func (in *importer) enter(g *incoming, id string, report *debrief.Report) error {
	lib, err := in.cfg.readCards()
	if err != nil {
		return err
	}
	return errors.Join(
		in.book.Begin(logbook.Entry{ID: id, Station: g.sender.String(), Began: g.began, Maneuver: in.cfg.Maneuver, Standard: in.cfg.Standard, Aircraft: in.cfg.Aircraft, Cards: logbook.CardsOf(lib)}),
		in.book.Keep(id, report), in.book.End(id, g.last))
}
