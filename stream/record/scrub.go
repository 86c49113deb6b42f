package record

import (
	"encoding/binary"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/klauspost/compress/zstd"
)

// Blocks and options of pcapng (draft-ietf-opsawg-pcapng).
const (
	blockSection   = 0x0a0d0d0a
	blockInterface = 1
	blockStatistic = 5
	blockPacket    = 6
	orderMagic     = 0x1a2b3c4d
	optionEnd      = 0
)

// Scrub changes the options of a file of a recording, comments and names among them, and leaves the datagrams as they
// are. Change gets the bytes of an option and may overwrite them, in the same length; it reports whether it did. A
// compressed file is compressed again. The file appears whole or not at all.
func Scrub(name string, change func(option []byte) bool) (changed bool, err error) {
	data, err := Plain(name)
	if err != nil {
		return false, err
	}
	if !scrub(data, change) {
		return false, nil
	}
	part := filepath.Join(filepath.Dir(name), halfCompressed+"scrub-"+filepath.Base(name))
	if strings.HasSuffix(name, ".zst") {
		z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1))
		if err != nil {
			return false, err
		}
		data = z.EncodeAll(data, nil)
		if err := z.Close(); err != nil {
			return false, err
		}
	}
	f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o640)
	if err != nil {
		return false, err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
		err = os.Rename(part, name)
	}
	if err != nil {
		return false, errors.Join(err, os.Remove(part))
	}
	return true, syncDir(filepath.Dir(name))
}

// Plain reads a file, unpacked where its name says that it is compressed by zstd.
func Plain(name string) ([]byte, error) {
	if !strings.HasSuffix(name, ".zst") {
		return os.ReadFile(name)
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	z, err := zstd.NewReader(f, zstd.WithDecoderConcurrency(1))
	if err != nil {
		return nil, err
	}
	defer z.Close()
	return io.ReadAll(z)
}

// scrub goes through the blocks of a file in memory as far as they are whole.
func scrub(data []byte, change func([]byte) bool) (changed bool) {
	var order binary.ByteOrder = binary.LittleEndian
	for len(data) >= 12 {
		kind := order.Uint32(data)
		if kind == blockSection {
			if order = orderOf(data[8:]); order == nil {
				return changed
			}
		}
		n := int64(order.Uint32(data[4:]))
		if n < 12 || n > int64(len(data)) || n%4 != 0 {
			return changed
		}
		block := data[:n]
		if at := optionsAt(kind, block, order); at > 0 && at <= int(n)-4 {
			changed = scrubOptions(block[at:n-4], order, change) || changed
		}
		data = data[n:]
	}
	return changed
}

func orderOf(magic []byte) binary.ByteOrder {
	for _, o := range []binary.ByteOrder{binary.LittleEndian, binary.BigEndian} {
		if o.Uint32(magic) == orderMagic {
			return o
		}
	}
	return nil
}

// optionsAt is where the options of a block begin; 0 for a block that has none.
func optionsAt(kind uint32, block []byte, order binary.ByteOrder) int {
	switch {
	case kind == blockSection && len(block) >= 28:
		return 24
	case kind == blockInterface && len(block) >= 20:
		return 16
	case kind == blockStatistic && len(block) >= 24:
		return 20
	case kind == blockPacket && len(block) >= 32:
		kept := int64(order.Uint32(block[20:]))
		if at := 28 + (kept+3)/4*4; at < int64(len(block)) {
			return int(at)
		}
	}
	return 0
}

func scrubOptions(o []byte, order binary.ByteOrder, change func([]byte) bool) (changed bool) {
	for len(o) >= 4 {
		code, n := order.Uint16(o), int(order.Uint16(o[2:]))
		end := 4 + (n+3)/4*4
		if code == optionEnd || end > len(o) {
			return changed
		}
		changed = change(o[4:4+n]) || changed
		o = o[end:]
	}
	return changed
}
