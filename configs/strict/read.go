package strict

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"github.com/pelletier/go-toml/v2/unstable"
)

// ReadFS reads a file for Decode. It fails, without reading it, when the file is larger than Largest, or is one that
// does not end, such as a pipe or a device.
func ReadFS(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, plainly(name, err)
	}
	if !info.Mode().IsRegular() {
		return nil, &Error{File: name, What: fmt.Sprintf("is %s; must be a TOML file", kind(info.Mode()))}
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, plainly(name, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, Largest+1))
	if err != nil {
		return nil, plainly(name, err)
	}
	if len(data) > Largest {
		return nil, tooLarge(name)
	}
	return data, nil
}

// plainly is why a file could not be read, which errors.Is still finds.
func plainly(name string, err error) error {
	return fmt.Errorf("%s: %w", Printable(name), WithoutName(err))
}

// WithoutName is an error of the file system without the name of the file, for where the name is printed beside it;
// any other error is returned as it is.
func WithoutName(err error) error {
	var failed *fs.PathError
	if errors.As(err, &failed) {
		return failed.Err
	}
	return err
}

func kind(m fs.FileMode) string {
	switch {
	case m.IsDir():
		return "a folder"
	case m&fs.ModeNamedPipe != 0:
		return "a pipe"
	case m&fs.ModeSocket != 0:
		return "a socket"
	}
	return "a device"
}

// Top returns the keys at the top of a file, each with its value where that is a string. It stops where the text is
// no TOML, and holds nothing of a file that Decode refuses for its size.
func Top(data []byte) map[string]string {
	top := map[string]string{}
	if len(data) > Largest {
		return top
	}
	var p unstable.Parser
	p.Reset(bytes.TrimPrefix(data, mark))
	table := false
	for p.NextExpression() {
		e := p.Expression()
		table = table || e.Kind != unstable.KeyValue
		if table && e.Kind == unstable.KeyValue {
			continue
		}
		it := e.Key()
		it.Next()
		key, value := string(it.Node().Data), ""
		if e.Kind == unstable.KeyValue && it.IsLast() && e.Value().Kind == unstable.String {
			value = string(e.Value().Data)
		}
		top[key] = value
	}
	return top
}
