package nats

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// What streams note of the cluster that made them.
const (
	noteCluster = "halfturn-cluster"
	noteStreams = "halfturn-streams"
	noteFormat  = "halfturn-format"
	streamsNow  = "1" // format of subjects and messages
)

// known is how long the server knows the ids of messages.
const known = 2 * time.Minute

// config is how a stream is made.
func (s *Settings) config(k int, now time.Time) jetstream.StreamConfig {
	keeping := &s.Keeping
	c := jetstream.StreamConfig{
		Name:        s.streamName(k),
		Description: "Halfturn: leases and batches of stations",
		Subjects:    s.subjects(k),
		Retention:   jetstream.LimitsPolicy,
		Discard:     jetstream.DiscardOld,
		MaxAge:      keeping.MaxAge,
		MaxBytes:    -1,
		Storage:     jetstream.FileStorage,
		Replicas:    keeping.Replicas,
		Duplicates:  known,
		Compression: jetstream.NoCompression,
		FirstSeq:    uint64(now.UnixMicro()),
		Metadata: map[string]string{
			noteCluster: s.Cluster,
			noteStreams: strconv.Itoa(keeping.Streams),
			noteFormat:  streamsNow,
		},
	}
	if keeping.MaxBytes > 0 {
		c.MaxBytes = keeping.MaxBytes / int64(keeping.Streams)
	}
	if keeping.Compressed {
		c.Compression = jetstream.S2Compression
	}
	return c
}

// own says whether a stream is this cluster's, and laid out as these settings say.
func (s *Settings) own(c jetstream.StreamConfig) error {
	note := func(key string) string { return c.Metadata[key] }
	switch {
	case note(noteCluster) == "":
		return fmt.Errorf("%w: stream %s was not made by Halfturn; set another prefix, or remove it", ErrForeign,
			c.Name)
	case note(noteCluster) != s.Cluster:
		return fmt.Errorf("%w: stream %s belongs to the cluster %q, this is %q; set another prefix, or the name of "+
			"that cluster", ErrForeign, c.Name, note(noteCluster), s.Cluster)
	case note(noteFormat) != streamsNow:
		return fmt.Errorf("%w: stream %s has format %q; must be %q: another version of Halfturn made it", ErrForeign,
			c.Name, note(noteFormat), streamsNow)
	case note(noteStreams) != strconv.Itoa(s.Keeping.Streams):
		return fmt.Errorf("%w: streams is %d; must be %s, as it was when stream %s was made, or the records of "+
			"stations would not be found", ErrForeign, s.Keeping.Streams, note(noteStreams), c.Name)
	}
	return nil
}

// owned looks at the streams that answer: whether they are this cluster's.
func (e *Engine) owned(ctx context.Context) error {
	if !e.store.IsConnected() {
		return nil
	}
	for k := range e.set.Keeping.Streams {
		ctx, cancel := context.WithTimeout(ctx, attempt)
		_, err := e.stream(ctx, k)
		cancel()
		if errors.Is(err, ErrForeign) {
			return err
		}
		if errors.Is(err, context.DeadlineExceeded) {
			return nil // the others are looked at when they are used
		}
	}
	return nil
}

// Found is what Make found and did.
type Found struct {
	Servers []Server
	Streams []Stream
	Used    uint64 // bytes of disk that the account uses
	Limit   int64  // bytes of disk that it may use; -1 is no limit
}

// A Server is one that the settings name.
type Server struct {
	Address string
	Name    string
	Version string
	Cluster string // of servers; "" is none
	Err     error  // why it cannot be used
}

// A Stream is one of the cluster's.
type Stream struct {
	Name     string
	Made     bool // it was not there
	Changed  bool // its settings were others
	Replicas int
	Leader   string // the server that answers for it
	Behind   int    // replicas that are not up to date, or gone
	Messages uint64
	Bytes    uint64
	Oldest   time.Time // when its oldest message was kept

	fresh bool // it was just made, by whichever node, or changed
}

// Make makes the streams that are missing, changes those whose settings are others, and says what it found. It may be
// called again, and by several nodes at once. What it found is whole up to the error. Replicas of streams that were
// just made are waited for some seconds.
func (e *Engine) Make(ctx context.Context) (*Found, error) {
	if err := e.usable(ctx); err != nil {
		return nil, err
	}
	found := &Found{Servers: e.servers()}
	if !e.store.IsConnected() {
		return found, e.none(found.Servers)
	}
	if most := e.store.MaxPayload(); most < flow.MostBytes+payloadRoom {
		return found, fmt.Errorf("max_payload of NATS at %s is %d; must be at least %d", e.at(), most,
			flow.MostBytes+payloadRoom)
	}
	account, err := e.js.AccountInfo(ctx)
	if err != nil {
		return found, e.makeFault("", err)
	}
	found.Used, found.Limit = account.Store, account.Limits.MaxStore
	now := time.Now()
	for k := range e.set.Keeping.Streams {
		s, err := e.make(ctx, k, now)
		if err != nil {
			return found, err
		}
		found.Streams = append(found.Streams, s)
	}
	e.settle(ctx, found.Streams)
	return found, nil
}

// How long replicas of fresh streams are waited for, and how often they are asked for.
const (
	settleWait  = 5 * time.Second
	settleEvery = 100 * time.Millisecond
)

// settle waits until the replicas of fresh streams are up to date, which they become a moment after their leader takes
// messages; those that stay behind are told of.
func (e *Engine) settle(ctx context.Context, all []Stream) {
	ctx, cancel := context.WithTimeout(ctx, settleWait)
	defer cancel()
	ticker := time.NewTicker(settleEvery)
	defer ticker.Stop()
	for slices.ContainsFunc(all, Stream.settles) {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		}
		for i, s := range all {
			if s.settles() {
				all[i] = e.seen(ctx, s)
			}
		}
	}
}

// settles says whether a stream is fresh and its replicas are not up to date.
func (s Stream) settles() bool { return s.fresh && s.Behind > 0 }

// seen asks for a stream once; without an answer it is as it was.
func (e *Engine) seen(ctx context.Context, s Stream) Stream {
	ctx, cancel := context.WithTimeout(ctx, attempt)
	defer cancel()
	is, err := e.js.Stream(ctx, s.Name)
	if err != nil {
		return s
	}
	return s.with(is.CachedInfo())
}

// payloadRoom is what a message takes beside a batch: its headers, and the names of a teller and a station.
const payloadRoom = 16 << 10

// servers asks each server by itself.
func (e *Engine) servers() []Server {
	all := make([]Server, len(e.set.URLs))
	var tasks sync.WaitGroup
	for i, u := range e.set.URLs {
		tasks.Go(func() {
			one := e.set
			one.URLs = []string{u}
			all[i].Address = one.addresses()
			c, err := one.connect("check", false, client.NoReconnect())
			if err != nil {
				all[i].Err = err
				return
			}
			defer c.Close()
			all[i].Name, all[i].Version, all[i].Cluster = c.ConnectedServerName(), c.ConnectedServerVersion(),
				c.ConnectedClusterName()
			if old(all[i].Version) {
				all[i].Err = fmt.Errorf("NATS at %s is version %s; must be %d.%d or later", all[i].Address,
					all[i].Version, leastVersion[0], leastVersion[1])
			}
		})
	}
	tasks.Wait()
	return all
}

// leastVersion is the first that compresses streams, notes metadata, and has them begin at a number.
var leastVersion = [2]int{2, 10}

// old says whether a version comes before leastVersion.
func old(version string) bool {
	major, rest, _ := strings.Cut(version, ".")
	minor, _, _ := strings.Cut(rest, ".")
	a, err := strconv.Atoi(major)
	b, too := strconv.Atoi(minor)
	return err == nil && too == nil && (a < leastVersion[0] || a == leastVersion[0] && b < leastVersion[1])
}

// make makes a stream, or changes it.
func (e *Engine) make(ctx context.Context, k int, now time.Time) (out Stream, err error) {
	wanted := e.set.config(k, now)
	s, err := e.js.Stream(ctx, wanted.Name)
	if errors.Is(err, jetstream.ErrStreamNotFound) {
		out.fresh = true
		s, err = e.js.CreateStream(ctx, wanted)
		if out.Made = err == nil; errors.Is(err, jetstream.ErrStreamNameAlreadyInUse) { // another node was quicker
			s, err = e.js.Stream(ctx, wanted.Name)
		}
	}
	if err != nil {
		return out, e.makeFault(wanted.Name, err)
	}
	is := s.CachedInfo().Config
	if err := e.set.own(is); err != nil {
		return out, err
	}
	if differs(is, wanted) {
		wanted.FirstSeq = is.FirstSeq
		for key, value := range is.Metadata { // servers note something too
			if wanted.Metadata[key] == "" {
				wanted.Metadata[key] = value
			}
		}
		if s, err = e.js.UpdateStream(ctx, wanted); err != nil {
			return out, e.makeFault(wanted.Name, err)
		}
		out.Changed, out.fresh = true, true
	}
	info, err := s.Info(ctx)
	if err != nil {
		return out, e.makeFault(wanted.Name, err)
	}
	return out.with(info), nil
}

func (s Stream) with(info *jetstream.StreamInfo) Stream {
	s.Name, s.Replicas = info.Config.Name, info.Config.Replicas
	s.Messages, s.Bytes, s.Oldest = info.State.Msgs, info.State.Bytes, info.State.FirstTime
	s.Behind = 0
	if c := info.Cluster; c != nil {
		s.Leader = c.Leader
		for _, r := range c.Replicas {
			if !r.Current || r.Offline {
				s.Behind++
			}
		}
	}
	return s
}

// differs says whether a stream is not as it has to be.
func differs(is, wanted jetstream.StreamConfig) bool {
	return !slices.Equal(is.Subjects, wanted.Subjects) || is.MaxAge != wanted.MaxAge ||
		is.MaxBytes != wanted.MaxBytes || is.Replicas != wanted.Replicas ||
		is.Duplicates != wanted.Duplicates || is.Compression != wanted.Compression || is.Discard != wanted.Discard
}

// makeFault says why a stream cannot be made, and what to do.
func (e *Engine) makeFault(name string, err error) error {
	at := e.at()
	switch c := code(err); {
	case errors.Is(err, jetstream.ErrJetStreamNotEnabled), errors.Is(err, jetstream.ErrJetStreamNotEnabledForAccount),
		errors.Is(err, client.ErrNoResponders):
		return fmt.Errorf("NATS at %s has no JetStream for this node; enable it there", at)
	case c == noReplicas, c == noPeers:
		return fmt.Errorf("stream %s: replicas is %d; NATS at %s has not that many servers with JetStream and disk "+
			"space: add servers, or set replicas to 1", name, e.set.Keeping.Replicas, at)
	case c == overlap:
		return fmt.Errorf("%w: another stream of NATS at %s keeps subjects that begin with %s.st; set another prefix",
			ErrForeign, at, e.set.Prefix)
	case isFull(err):
		return fmt.Errorf("stream %s: NATS at %s has no disk space left for this node; make room there, let it use "+
			"more, or have less kept (keep-gb, keep-hours)", name, at)
	case errors.Is(err, context.DeadlineExceeded) && e.notes.lacking(time.Now()) != nil:
		return e.notes.lacking(time.Now())
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, context.Canceled):
		return fmt.Errorf("%w: NATS at %s did not answer in time: %w", flow.ErrAway, at, err)
	}
	return fmt.Errorf("stream %s at NATS (%s): %w", name, at, err)
}
