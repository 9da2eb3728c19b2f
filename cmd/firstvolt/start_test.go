package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"sync"
	"testing"
)

// Of many that write one name at once exactly one does, and the file is whole.
func TestWriteNewWritesOnce(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "x.yaml")
	var wg sync.WaitGroup
	done := make(chan string, 16)
	for i := range 16 {
		wg.Go(func() {
			text := string(bytes.Repeat([]byte{byte('a' + i)}, 1<<16))
			if writeNew(path, []byte(text)) == nil {
				done <- text
			}
		})
	}
	wg.Wait()
	close(done)
	var texts []string
	for text := range done {
		texts = append(texts, text)
	}
	got, err := os.ReadFile(path)
	if err != nil || len(texts) != 1 || string(got) != texts[0] {
		t.Fatalf("%d were written, %d bytes stand there, %v", len(texts), len(got), err)
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("%d files are left, %v", len(entries), err)
	}
}

func TestSheetPath(t *testing.T) {
	for _, c := range [][3]string{
		{"wren", "wren.yaml", "wren"}, {"wren.yaml", "wren.yaml", "wren"}, {"a/Wren.YML", "a/Wren.YML", "Wren"},
		{"Wren 5.5", "Wren 5.5.yaml", "Wren 5.5"}, {"Ängö", "Ängö.yaml", "Ängö"},
	} {
		if path, set, err := sheetPath(c[0]); path != c[1] || set != c[2] || err != nil {
			t.Errorf("%q: %q, %q, %v", c[0], path, set, err)
		}
	}
	for _, name := range []string{"", ".", "..", ".yaml", "a/", "-", "a\x1bb", "a\nb", "\u202ea"} {
		if path, _, err := sheetPath(name); err == nil {
			t.Errorf("%q is taken as %q", name, path)
		}
	}
}

func TestSchemaIsJSON(t *testing.T) {
	var a, b, diagnostics bytes.Buffer
	if run([]string{"schema"}, &a, &diagnostics) != 0 || run([]string{"schema"}, &b, &diagnostics) != 0 || a.String() != b.String() {
		t.Fatal(diagnostics.String())
	}
	var v struct{ Properties map[string]any }
	if err := json.Unmarshal(a.Bytes(), &v); err != nil || len(v.Properties) < 10 {
		t.Errorf("%d keys, %v", len(v.Properties), err)
	}
}
