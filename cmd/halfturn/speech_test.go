package main

import (
	"strings"
	"testing"
)

func TestSpeechProgramNotThere(t *testing.T) {
	t.Setenv("HALFTURN_SPEECH_COMMAND", "no-such-program-of-this-name, {words}")
	status, _, msg := call(t, map[string]string{"HALFTURN_SPEECH_COMMAND": "no-such-program-of-this-name, {words}"},
		"serve", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0", "--data", t.TempDir())
	if status != exitUsage || !strings.Contains(msg, "no-such-program-of-this-name is not there") ||
		!strings.Contains(msg, "[speech] command") {
		t.Errorf("exit status %d, %s", status, msg)
	}
}
