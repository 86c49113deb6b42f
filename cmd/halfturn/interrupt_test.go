//go:build linux

package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/klauspost/compress/zstd"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/stream/trainer"
)

// trainerFlight is any flight of the built-in aircraft.
var trainerFlight = trainer.Flight{Direction: "right", Airplane: "light-single", Seed: 1}

// endless writes a recording that takes minutes to read: frames of zstd one after another are one file (RFC 8878, 3).
func endless(t *testing.T, name string, head, again []byte) string {
	t.Helper()
	z, err := zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1))
	if err != nil {
		t.Fatal(err)
	}
	defer z.Close()
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	frame := z.EncodeAll(bytes.Repeat(again, 16<<20/len(again)), nil)
	if _, err := f.Write(z.EncodeAll(head, nil)); err != nil {
		t.Fatal(err)
	}
	for range 8192 { // 128 GB
		if _, err := f.Write(frame); err != nil {
			t.Fatal(err)
		}
		if at, _ := f.Seek(0, io.SeekCurrent); at > 64<<20 {
			break
		}
	}
	return name
}

// reads reports whether a process has a file open.
func reads(pid int, name string) bool {
	links, _ := filepath.Glob(fmt.Sprintf("/proc/%d/fd/*", pid))
	for _, l := range links {
		if to, err := os.Readlink(l); err == nil && to == name {
			return true
		}
	}
	return false
}

// TestInterrupted: whatever a command that reads recordings is doing, it ends soon after it is told to, and an import
// leaves nothing.
func TestInterrupted(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	flight := recordTo(t, trainerFlight, 10)
	section := binary.LittleEndian.AppendUint32(nil, 0x0a0d0d0a)
	for _, v := range []uint32{28, 0x1a2b3c4d, 1, 0xffffffff, 0xffffffff, 28} {
		section = binary.LittleEndian.AppendUint32(section, v)
	}
	other := make([]byte, 4096) // a block of a kind that nobody knows (draft-ietf-opsawg-pcapng, 3.1)
	for at, v := range map[int]uint32{0: 0x40000bad, 4: 4096, 4092: 4096} {
		binary.LittleEndian.PutUint32(other[at:], v)
	}
	for kind, file := range map[string]string{
		"flight":  endless(t, filepath.Join(dir, "flight.pcap.zst"), flight[:24], flight[24:]),
		"nothing": endless(t, filepath.Join(dir, "nothing.pcapng.zst"), section, other),
	} {
		for _, args := range [][]string{
			{"grade", file},
			{"grade", "--maneuver", "auto", "--format", "json", file, file},
			{"sessions", "import", "--most-size", "0", "--most-ratio", "0", file},
			{"sessions", "export", file},
			{"sessions", "export", "--format", "parquet", file},
			{"sessions", "export", "--format", "pdf", file},
			{"sessions", "export", "--leg", "1", file},
			{"sessions", "regrade", file},
			{"cards", "measure", file},
		} {
			data := t.TempDir()
			if args[0] == "sessions" {
				args = append(args, "--data", data)
			}
			t.Run(kind+" "+strings.Join(args[:2], " "), func(t *testing.T) {
				t.Parallel()
				p := begin(t, nil, args...)
				cmdtest.Until(t, func() bool { return reads(p.Process.Pid, file) },
					func() string { return "it does not read" })
				p.signal(t, syscall.SIGINT)
				if status := p.ends(t); status != exitFailed {
					t.Errorf("%v: exit status %d; must be %d", args, status, exitFailed)
				}
				if left, _ := filepath.Glob(filepath.Join(data, "sessions", "*")); len(left) > 0 {
					t.Errorf("it leaves %v", left)
				}
				if left, _ := filepath.Glob(filepath.Join(data, "sessions", ".*")); len(left) > 0 {
					t.Errorf("it leaves %v", left)
				}
			})
		}
	}
}

// TestNoFiles: what is no file is passed over in a folder, and refused when it is named; nothing waits for it.
func TestNoFiles(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := syscall.Mkfifo(at("pipe.pcap"), 0o600); err != nil {
		t.Skip(err)
	}
	socket, err := net.Listen("unix", at("socket.pcap"))
	if err != nil {
		t.Fatal(err)
	}
	defer socket.Close()
	for name, to := range map[string]string{"device.pcap": os.DevNull, "loop.pcap": at("loop.pcap"), "up": dir,
		"gone.pcap": at("none"), "link-to-pipe.pcap": at("pipe.pcap")} {
		if err := os.Symlink(to, at(name)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(at("folder.pcap"), 0o700); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"": "holds no recording", "pipe.pcap": "is a pipe, not a file",
		"socket.pcap": "is a socket, not a file",
		"device.pcap": "is a device, not a file", "loop.pcap": "too many levels", "folder.pcap": "holds no recording",
		"link-to-pipe.pcap": "is a pipe, not a file"} {
		for _, command := range [][]string{{"grade"}, {"sessions", "import", "--data", t.TempDir()},
			{"cards", "measure"}, {"sessions", "export"}} {
			p := begin(t, nil, append(command, at(name))...)
			p.endsWithin(t, cmdtest.Patience)
			if want := strings.Replace(want, "holds no recording", "recording", 1); !strings.Contains(p.words(), want) {
				t.Errorf("%v %s says %q, not %q", command, name, p.words(), want)
			}
		}
	}
	// Beside all these a recording is found.
	if err := os.WriteFile(at("flight"), readFile(t, recording), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(at("flight"), at("again.pcap")); err != nil {
		t.Fatal(err)
	}
	if status, out, errs := call(t, nil, "grade", dir); status != exitDone ||
		strings.Count(out, "finished") != 2*strings.Count(gradedText(t, recording), "finished") {
		t.Errorf("exit status %d, %s%s", status, errs, out)
	}
}

func gradedText(t *testing.T, name string) string {
	t.Helper()
	_, out, _ := call(t, nil, "grade", "--format", "table", name)
	return out
}
