package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// Every cause is listed once, in both forms, with a meaning and a sentence of advice.
func TestCauses(t *testing.T) {
	var text, data, errs bytes.Buffer
	if status := run(context.Background(), []string{"causes"},
		streamsTo(&text, &errs, os.LookupEnv)); status != exitDone {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	if status := run(context.Background(), []string{"causes", "--format", "json"},
		streamsTo(&data, &errs, os.LookupEnv)); status != exitDone {
		t.Fatalf("status %d: %s", status, errs.String())
	}
	var list []struct{ ID, Meaning, Advice string }
	if err := json.Unmarshal(data.Bytes(), &list); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, c := range list {
		if seen[c.ID] || c.Meaning == "" || !strings.HasSuffix(c.Advice, ".") ||
			!strings.Contains(text.String(), c.ID+" ") {
			t.Errorf("%+v", c)
		}
		seen[c.ID] = true
	}
	if len(list) < 40 {
		t.Errorf("only %d causes", len(list))
	}
}
