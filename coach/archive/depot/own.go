package depot

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
)

// OwnerName is the object that says whose a depot is.
const OwnerName = "halfturn.json"

// layout is the version of the names and forms of objects.
const layout = 1

// An owner says whose a depot is.
type owner struct {
	Program string `json:"program"`
	Layout  int    `json:"layout"`
	Cluster string `json:"cluster"`
}

const program = "halfturn"

// Own makes an empty depot that of a cluster, or makes sure that it is. One of another cluster, of another program, or
// of a newer version of this one is refused and left as it is: the error is an ErrDenied.
func Own(ctx context.Context, d Depot, cluster string) error {
	err := owned(ctx, d, cluster)
	if !errors.Is(err, ErrNotFound) {
		return err
	}
	other := ""
	stop := errors.New("there is one")
	err = d.List(ctx, "", func(o Object) error {
		other = o.Name
		return stop
	})
	switch {
	case errors.Is(err, stop):
		// Another node may have made it ours between the two questions.
		if err := owned(ctx, d, cluster); !errors.Is(err, ErrNotFound) {
			return err
		}
		return fmt.Errorf("%w: %s is not empty and not of Halfturn (it holds %s); name another bucket or an empty one",
			ErrDenied, d, other)
	case err != nil:
		return err
	}
	text, err := json.MarshalIndent(owner{program, layout, cluster}, "", "  ")
	if err != nil {
		return err
	}
	text = append(text, '\n')
	_, err = d.Create(ctx, OwnerName, bytes.NewReader(text), int64(len(text)))
	if errors.Is(err, ErrExists) { // another node was faster
		return owned(ctx, d, cluster)
	}
	return err
}

// owned returns nil when a depot is that of a cluster, and ErrNotFound when it does not say whose it is.
func owned(ctx context.Context, d Depot, cluster string) error {
	text, err := Read(ctx, d, OwnerName)
	if err != nil {
		return err
	}
	var o owner
	switch err := json.Unmarshal(text, &o); {
	case err != nil || o.Program != program:
		return fmt.Errorf("%w: %s in %s is not of Halfturn; name another bucket", ErrDenied, OwnerName, d)
	case o.Layout > layout:
		return fmt.Errorf("%w: %s was made by a newer version of halfturn (layout %d, this one knows %d); "+
			"update this node", ErrDenied, d, o.Layout, layout)
	case o.Cluster != cluster:
		return fmt.Errorf("%w: %s is of the cluster %q, this node is of %q; name another bucket, or the cluster "+
			"as it is called", ErrDenied, d, o.Cluster, cluster)
	}
	return nil
}
