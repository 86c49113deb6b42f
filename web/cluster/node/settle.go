package node

import (
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/presence"
	"halfturn/web/cluster/tenures"
)

// What a node notes in its data directory: the sessions that it flies, so that a node which is started again knows
// which of them another one has taken over, and those that were, whose folders are moved aside.
const (
	flownFile = "flown.json"
	takenName = "taken"
	ofFile    = "station"
)

func (n *Node) dir() string { return filepath.Join(n.opt.Data, "cluster") }

func (n *Node) takenDir() string { return filepath.Join(n.dir(), takenName) }

// A flownSession is one that this node flies.
type flownSession struct {
	Station string `json:"station"`
	Session string `json:"session"`
	Fence   uint64 `json:"fence"`
}

// noteFlown notes what a station flies under its lease; session "" is nothing.
func (n *Node) noteFlown(station, session string, fence uint64) {
	n.files.Lock()
	defer n.files.Unlock()
	all := n.readFlown()
	if delete(all, station); session != "" {
		all[station] = flownSession{station, session, fence}
	}
	text, err := json.Marshal(all)
	if err == nil {
		err = os.MkdirAll(n.dir(), 0o750)
	}
	name := filepath.Join(n.dir(), flownFile)
	if err == nil {
		err = os.WriteFile(name+".new", text, 0o640)
	}
	if err == nil {
		err = os.Rename(name+".new", name)
	}
	if err != nil {
		n.opt.Log.Warn().Err(err).Msg("which sessions this node flies cannot be noted")
	}
}

func (n *Node) readFlown() map[string]flownSession {
	all := map[string]flownSession{}
	text, err := os.ReadFile(filepath.Join(n.dir(), flownFile))
	if err == nil && json.Unmarshal(text, &all) == nil {
		return all
	}
	return map[string]flownSession{}
}

// Settle looks at the sessions that this node flew when it ended. Those that another node has taken over are moved
// aside; the others are resumed as on a single server. It waits for the store no longer than ctx: without an answer
// they are resumed, and left to the other node when the store is back. It is called before the desk starts.
func (n *Node) Settle(ctx context.Context) {
	n.files.Lock()
	all := n.readFlown()
	n.files.Unlock()
	for _, f := range all {
		l, err := n.opt.Flow.Holder(ctx, f.Station)
		st := n.station(f.Station)
		st.mu.Lock()
		if st.lease.Fence = max(f.Fence, l.Fence); err == nil {
			st.lease, st.known = l, true
			st.lease.Station = f.Station
		} else {
			st.lease.Node, st.lease.Session = n.opt.Name, f.Session
			st.known = true // it was written: who took the station over wrote another one
		}
		taken := err == nil && l.Node != n.opt.Name && l.Fence > f.Fence
		st.doubt = !taken
		st.mu.Unlock()
		if taken {
			n.aside(f.Station, f.Session)
			n.noteFlown(f.Station, "", 0)
		}
	}
}

// markTaken notes whose session a folder is that was moved aside.
func (n *Node) markTaken(station, session string) {
	err := os.WriteFile(filepath.Join(n.takenDir(), session, ofFile), []byte(station), 0o640)
	if err != nil && !errors.Is(err, fs.ErrNotExist) { // there was no folder
		n.opt.Log.Warn().Err(err).Str("session", session).Msg("the folder that was moved aside stays")
	}
}

// unleave removes what was moved aside of a session that this node goes on with: its record is the whole of it.
func (n *Node) unleave(session string) {
	if err := os.RemoveAll(filepath.Join(n.takenDir(), session)); err != nil {
		n.opt.Log.Warn().Err(err).Str("session", session).Msg("the folder that was moved aside stays")
	}
}

// sweep removes the folders that were moved aside, once the session is over on the node that went on with it. One that
// no other node went on with, as it could not, stays: it is all there is of the session.
func (n *Node) sweep() {
	entries, _ := os.ReadDir(n.takenDir()) // there is none
	ctx, cancel := context.WithTimeout(n.ctx, time.Second)
	defer cancel()
	for _, e := range entries {
		if _, stays := n.stays.Load(e.Name()); stays {
			continue
		}
		dir := filepath.Join(n.takenDir(), e.Name())
		of, err := os.ReadFile(filepath.Join(dir, ofFile))
		if err != nil {
			continue
		}
		l, err := n.opt.Flow.Holder(ctx, string(of))
		if err != nil || l.Session == e.Name() {
			continue
		}
		switch others, err := n.wentOn(ctx, string(of), e.Name()); {
		case err != nil:
			continue
		case !others:
			n.stays.Store(e.Name(), true)
			n.opt.Log.Error().Str("session", e.Name()).Str("folder", dir).
				Msg("no other node went on with the session that was left to one; its folder stays, to be imported")
			continue
		}
		if err := os.RemoveAll(dir); err != nil {
			n.opt.Log.Warn().Err(err).Msg("the folder of a session that another node has cannot be removed")
		}
	}
}

// wentOn reports whether another node has recorded something of a session.
func (n *Node) wentOn(ctx context.Context, station, session string) (is bool, err error) {
	err = n.opt.Flow.Read(ctx, station, session, func(b *flow.Batch) error {
		if o := tenures.OpeningOf(b); b.Session == session && o != nil && o.Node != n.opt.Name {
			is = true
		}
		return nil
	})
	return is, err
}

// Leave tells the others that this node goes, and waits until what it recorded is kept, or the context ends.
func (n *Node) Leave(ctx context.Context) {
	for {
		waits := false
		for _, st := range n.all() {
			st.flush(time.Now(), true)
			waits = waits || st.keeper.waits()
		}
		if !waits || ctx.Err() != nil {
			break
		}
		pause(ctx, 10*time.Millisecond)
	}
	n.tell(&presence.Beat{At: time.Now(), Leaves: true})
}

// waits reports whether something is still to be kept.
func (k *keeper) waits() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return len(k.steps) > 0
}
