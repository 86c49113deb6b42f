package node

import (
	"context"
	"encoding/json"
	"errors"
	"time"

	"halfturn/coach/command"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/cluster/flow"
)

// A clusterDesk brings what is asked of stations on other nodes to them, and the rest to the desk of this node.
type clusterDesk struct {
	web.Desk
	node *Node
}

// Wrap returns a desk of all stations of the cluster: those of the desk here, and those of other nodes.
func (n *Node) Wrap(d web.Desk) web.Desk { return clusterDesk{d, n} }

// elsewhere returns the node that coaches a station; "" when that is this one, or none.
func (n *Node) elsewhere(station string) string {
	if node, _ := n.holder(station); node != n.opt.Name {
		return node
	}
	return ""
}

// Do carries out a command at its station. It returns nil once the command outlives the node that carried it out.
func (d clusterDesk) Do(ctx context.Context, c command.Command) error {
	node := d.node.elsewhere(c.Station)
	if node == "" {
		err := d.Desk.Do(ctx, c)
		if err == nil {
			err = d.node.certain(ctx, c.Station)
		}
		return err
	}
	text, err := json.Marshal(c)
	if err != nil {
		return err
	}
	a, err := d.node.question(ctx, node, &question{Kind: askDo, Station: c.Station, Command: text})
	d.node.opt.Log.Info().Err(err).Str("station", c.Station).Str("command", string(c.Kind())).Str("id", c.ID).
		Str("by", c.By.Name).Str("node", node).Msg("sent to the node that coaches the station")
	switch {
	case errors.Is(err, flow.ErrNobody):
		return phrase.StationMute.Error(phrase.Name("station", c.Station))
	case err != nil, a.Unsure:
		return unsure(c.Station)
	case a.Refused != nil:
		var why phrase.Phrase
		if err := json.Unmarshal(a.Refused, &why); err != nil {
			return err
		}
		return &refused{why}
	case a.Gone:
		return phrase.StationGone.Error(phrase.Name("station", c.Station))
	}
	return nil
}

// question asks a node, for no longer than it may take to answer.
func (n *Node) question(ctx context.Context, node string, q *question) (*answer, error) {
	ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Ask)
	defer cancel()
	return n.ask(ctx, node, q)
}

// refused is why a node did not carry out a command.
type refused struct{ why phrase.Phrase }

// Error is the English; phrase.OfError reads it again.
func (r *refused) Error() string { return r.why.String() }

// doHere carries out a command of another node. One that comes while this node stood still or was cut off may be old:
// who asked for it was told so, and may have asked again.
func (n *Node) doHere(ctx context.Context, text []byte) *answer {
	c, err := command.Decode(text)
	switch {
	case err != nil:
	case !n.awake(time.Now()):
		err = phrase.StationMute.Error(phrase.Name("station", c.Station))
	default:
		err = n.desk.Do(ctx, c)
	}
	if err == nil {
		return &answer{Unsure: n.certain(ctx, c.Station) != nil}
	}
	why, err := json.Marshal(phrase.OfError(err))
	if err != nil {
		return &answer{Gone: true}
	}
	return &answer{Refused: why}
}

// Legs returns what a station has flown so far.
func (d clusterDesk) Legs(ctx context.Context, station string) (any, bool) {
	if node := d.node.elsewhere(station); node != "" {
		return d.node.valueOf(ctx, node, &question{Kind: askLegs, Station: station})
	}
	return d.Desk.Legs(ctx, station)
}

// Probe returns everything known of a station's stream.
func (d clusterDesk) Probe(ctx context.Context, station string) (any, bool) {
	if node := d.node.elsewhere(station); node != "" {
		return d.node.valueOf(ctx, node, &question{Kind: askProbe, Station: station})
	}
	return d.Desk.Probe(ctx, station)
}

func (n *Node) valueOf(ctx context.Context, node string, q *question) (any, bool) {
	a, err := n.question(ctx, node, q)
	if err != nil || a.Gone {
		return nil, false
	}
	return a.Value, true
}
