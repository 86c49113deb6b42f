package node

import (
	"context"
	"encoding/json"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// mostLater is how many events wait while those before them are asked for. What comes then is asked for as well.
const mostLater = 256

// takeEvent shows an event of a station that is coached on another node.
func (n *Node) takeEvent(t flow.Told) {
	e, err := flow.DecodeEvent(t.Bytes)
	if err != nil {
		n.opt.Log.Debug().Err(err).Str("node", t.Node).Msg("an event cannot be read")
		return
	}
	if holder, _ := n.holder(t.Station); holder != "" && holder != t.Node {
		return // a former holder, which does not know it yet
	}
	st := n.station(t.Station)
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.coached {
		return
	}
	if st.asking {
		if len(st.later) < mostLater {
			st.later = append(st.later, *e)
		}
		return
	}
	st.show(t.Node, e)
}

// show shows an event of another node. Where those before it are missing, or were others, it is asked for all there is.
// mu is held.
func (st *station) show(node string, e *flow.Event) {
	if st.fits(e) {
		return
	}
	st.node.counts.gaps.Inc()
	st.asking = true
	st.later = append(st.later[:0], *e)
	st.node.work.Go(func() {
		st.node.opt.Faults.Run("cluster", st.name, func() { st.catchUp(node) })
	})
}

// fits shows an event of another node where those before it are shown, and reports whether it is shown now. mu is held.
func (st *station) fits(e *flow.Event) bool {
	run, seq, _ := st.node.opt.Hub.Latest(st.name)
	if e.Run == run && e.Seq == seq+1 || e.Run != run && e.Seq == 1 {
		st.relay(e)
		return true
	}
	return e.Run == run && st.numbers.Has(e)
}

// relay shows an event that follows what is shown. mu is held.
func (st *station) relay(e *flow.Event) {
	m, err := message.Decode(e.Body)
	if err != nil || m.Station != st.name || m.Seq != e.Seq {
		st.node.opt.Log.Warn().Err(err).Str("station", st.name).Msg("an event of another node cannot be read")
		return
	}
	st.numbers.Note(e, true)
	st.node.opt.Hub.Relay(e.Run, m, e.Body)
}

// catchUp asks a node for what is missing of the events of a station, and shows it.
func (st *station) catchUp(node string) {
	n := st.node
	ctx, cancel := context.WithTimeout(n.ctx, n.opt.Times.Ask)
	defer cancel()
	run, seq, _ := n.opt.Hub.Latest(st.name)
	st.mu.Lock()
	id := st.numbers.Of(run, seq)
	st.mu.Unlock()
	a, err := n.ask(ctx, node, &question{Kind: askScene, Station: st.name, Run: run, Seq: seq, ID: id})
	st.mu.Lock()
	defer st.mu.Unlock()
	st.asking = false
	later := st.later
	st.later = nil
	if err != nil || a.Gone || st.coached {
		return // the next event asks again
	}
	if len(a.Scene) > 0 {
		if err := n.opt.Hub.Adopt(a.Scene); err != nil {
			n.opt.Log.Warn().Err(err).Str("station", st.name).Str("node", node).
				Msg("what another node shows of the station cannot be read")
			return
		}
		for i := range a.Events {
			st.numbers.Note(&a.Events[i], true)
		}
	} else {
		for i := range a.Events {
			st.relay(&a.Events[i])
		}
	}
	now, last, _ := n.opt.Hub.Latest(st.name)
	for i := range later {
		switch e := &later[i]; {
		case st.asking || st.numbers.Has(e):
		case now == run && last == seq: // asked at once again, the node would say the same, for ever
			st.fits(e)
		default:
			st.show(node, e)
		}
	}
}

// takeFrame shows the present state of a station that is coached on another node.
func (n *Node) takeFrame(t flow.Told) {
	if holder, _ := n.holder(t.Station); holder != t.Node || !n.opt.Hub.Has(t.Station) {
		return
	}
	if station, f, err := message.DecodeFrame(t.Bytes); err == nil && station == t.Station {
		n.opt.Hub.Frame(t.Station, f)
	}
}

// scene answers what is missing of the events of a station: those after one, or all there is.
func (n *Node) scene(q *question) *answer {
	st := n.known(q.Station)
	if st == nil {
		return &answer{Gone: true}
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	a := &answer{}
	run, _, _ := n.opt.Hub.Latest(q.Station)
	bodies, ok := n.opt.Hub.Since(q.Station, q.Run, q.Seq)
	if ok = ok && (q.Seq == 0 || q.ID != "" && st.numbers.Of(q.Run, q.Seq) == q.ID); !ok {
		if a.Scene = n.opt.Hub.Hello(q.Station); a.Scene == nil {
			return &answer{Gone: true}
		}
	} else {
		for i, body := range bodies {
			seq := q.Seq + uint64(i) + 1
			a.Events = append(a.Events, flow.Event{ID: st.numbers.Of(run, seq), Seq: seq, Run: run, Body: body})
		}
		return a
	}
	a.Events = append(a.Events, st.numbers.Latest()...) // to tell those that come again
	return a
}

// kinds of questions from node to node.
const (
	askScene = "scene"
	askDo    = "do"
	askLegs  = "legs"
	askProbe = "probe"

	askRecord = "record" // the batches that are not kept yet
	askHolds  = "holds"  // whether the station is coached there
	askKnows  = "knows"  // whether a batch is known of the record that is followed
)

// A question is asked of the node that coaches a station.
type question struct {
	Kind    string          `json:"kind"`
	Station string          `json:"station"`
	Run     string          `json:"run,omitempty"` // askScene: what is there
	Seq     uint64          `json:"seq,omitempty"`
	ID      string          `json:"id,omitempty"`      // of that event
	Command json.RawMessage `json:"command,omitempty"` // askDo
	After   *tenures.Point  `json:"after,omitempty"`   // askKnows: the batch; askRecord: those behind it
	Fence   uint64          `json:"fence,omitempty"`   // of its tenure
}

// An answer is what a node says.
type answer struct {
	Gone    bool            `json:"gone,omitempty"`    // the station is not there
	Refused json.RawMessage `json:"refused,omitempty"` // a phrase.Phrase: why nothing was done
	Scene   json.RawMessage `json:"scene,omitempty"`   // a Hello
	Events  []flow.Event    `json:"events,omitempty"`
	Batches [][]byte        `json:"batches,omitempty"`
	Value   json.RawMessage `json:"value,omitempty"`   // of askLegs and askProbe
	Unsure  bool            `json:"unsure,omitempty"`  // of askDo: it was done, and may be lost
	Follows bool            `json:"follows,omitempty"` // of askKnows: up to there, or farther
	Heard   bool            `json:"heard,omitempty"`   // the batch, or one after it of its tenure
	Holds   bool            `json:"holds,omitempty"`   // of askHolds
}

// ask asks a node.
func (n *Node) ask(ctx context.Context, node string, q *question) (*answer, error) {
	text, err := json.Marshal(q)
	if err != nil {
		return nil, err
	}
	data, err := n.opt.Flow.Ask(ctx, node, text)
	if err != nil {
		return nil, err
	}
	a := new(answer)
	return a, json.Unmarshal(data, a)
}

// answer answers another node.
func (n *Node) answer(ctx context.Context, text []byte) []byte {
	var q question
	a := &answer{Gone: true}
	if err := json.Unmarshal(text, &q); err == nil {
		n.opt.Faults.Run("cluster", q.Station, func() {
			ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Ask)
			defer cancel()
			a = n.reply(ctx, &q)
		})
	}
	data, err := json.Marshal(a)
	if err != nil {
		n.opt.Log.Error().Err(err).Str("station", q.Station).Msg("a question of another node cannot be answered")
		return []byte(`{"gone":true}`)
	}
	return data
}

func (n *Node) reply(ctx context.Context, q *question) *answer {
	switch {
	case q.Kind == askScene:
		return n.scene(q)
	case q.Kind == askRecord:
		return &answer{Batches: n.station(q.Station).keeper.waitingBatches(q.After)}
	case q.Kind == askKnows:
		return n.knows(q)
	case q.Kind == askHolds:
		_, holds := n.station(q.Station).holds()
		return &answer{Holds: holds}
	case n.desk == nil:
		return &answer{Gone: true}
	case q.Kind == askDo:
		return n.doHere(ctx, q.Command)
	case q.Kind == askLegs:
		return valued(n.desk.Legs(ctx, q.Station))
	case q.Kind == askProbe:
		return valued(n.desk.Probe(ctx, q.Station))
	}
	return &answer{Gone: true}
}

func valued(v any, ok bool) *answer {
	text, err := json.Marshal(v)
	if !ok || err != nil {
		return &answer{Gone: true}
	}
	return &answer{Value: text}
}
