package base

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"halfturn/configs/strict"
	"halfturn/stream/capture"
	"halfturn/stream/textlog"
	"halfturn/stream/textlog/propose"
)

// proposal is what --map says instead of a file to get a map proposed.
const proposal = "propose"

// Proposes reports whether a map is to be proposed.
func (f *Flags) Proposes() bool { return len(f.Map) == 1 && f.Map[0] == proposal }

// ProposeMap prints a map for the columns of a text log.
func ProposeMap(ctx context.Context, s Streams, files []string) error {
	if len(files) != 1 {
		return Usagef(s.Language, "%s takes one log; %d are given", "--map "+proposal, len(files))
	}
	f, err := os.Open(files[0])
	if err != nil {
		return err
	}
	defer f.Close()
	text, err := proposed(ctx, f, filepath.Base(files[0]))
	if err != nil {
		return fmt.Errorf("%s: %w", files[0], strict.WithoutName(err))
	}
	_, err = io.WriteString(s.Out, text)
	return err
}

func proposed(ctx context.Context, r io.Reader, name string) (string, error) {
	plain, err := capture.Unpack(ctx, r, &capture.Limits{})
	if err != nil {
		return "", err
	}
	defer plain.Close()
	t, err := textlog.ReadTable(plain)
	if err != nil {
		return "", err
	}
	return propose.Map(t, name), nil
}
