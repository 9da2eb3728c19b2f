package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"firstvolt/cmd/firstvolt/internal/manual"
)

const readme = "../../README.md"

// The README's example sheets: their text is kept where it can be judged by
// other tests as well, and shown from there.
const readmeSheets = "../../testdata/readme"

var fenced = regexp.MustCompile("(?ms)^```(.*?)\n(.*?)^```$")

// TestReadme runs every example of the README as a reader would, in one
// folder and in their order, and makes every table anew.
func TestReadme(t *testing.T) {
	data := readAll(t, readme)
	sameFile(t, readme, renewed(t, data, tables(t), nil, 5))
	if most := 12 << 10; len(data) > most {
		t.Errorf("the README has %d bytes, more than %d", len(data), most)
	}
}

// TestReadmeOfTheRules does the same with that of the rulebook, beside the sheets
// of the first.
func TestReadmeOfTheRules(t *testing.T) {
	const file = "../../rules/README.md"
	sameFile(t, file, renewed(t, readAll(t, file), ruleTables(), []string{"mantel-mended.yaml"}, 3))
}

// TestReadmeOfTheSheet runs the examples of the reference, and holds the file
// against what the program prints.
func TestReadmeOfTheSheet(t *testing.T) {
	const file = "internal/manual/writing.md"
	prose := renewed(t, readAll(t, file), nil, nil, 2)
	sameFile(t, file, prose)
	sameFile(t, "../../checks/sheet/README.md", manual.Markdown(prose))
}

func readAll(t *testing.T, file string) string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil && !(*update && os.IsNotExist(err)) {
		t.Fatal(err)
	}
	return string(data)
}

// sameFile holds a file against what it ought to be, or makes it so.
func sameFile(t *testing.T, file, want string) {
	t.Helper()
	is := readAll(t, file)
	if is == want {
		return
	}
	if !*update {
		t.Errorf("%s is not what the program does: go test ./cmd/firstvolt -run Readme -update, then read the difference\n%s", file, firstDifference(is, want))
		return
	}
	if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
		t.Fatal(err)
	}
}

// renewed is a text with its examples run anew, in a folder where the sheets lie
// that are named, and with its tables made anew.
func renewed(t *testing.T, data string, made map[string]string, lying []string, least int) string {
	t.Helper()
	sheets, err := filepath.Abs(readmeSheets)
	if err != nil {
		t.Fatal(err)
	}
	back, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	for _, file := range lying {
		if err := os.WriteFile(file, []byte(readAll(t, filepath.Join(sheets, file))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	ran := 0
	want := fenced.ReplaceAllStringFunc(data, func(block string) string {
		m := fenced.FindStringSubmatch(block)
		info, body := m[1], m[2]
		kind, rest, _ := strings.Cut(info, " ")
		switch kind {
		case "sh":
			ran += twoCommands(t, body)
		case "yaml":
			file, before, mends := strings.Cut(rest, " beside ")
			text := readAll(t, filepath.Join(sheets, file))
			body = text
			if mends {
				file, body = before, added(readAll(t, before), body)
			}
			if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		case "console":
			ran++
			body = session(t, body, rest)
		default:
			t.Errorf("a block that nothing runs: %q", info)
		}
		return "```" + info + "\n" + body + "```"
	})
	for name, text := range made {
		block := regexp.MustCompile(`(?s)(<!-- made: ` + name + ` -->\n).*?(<!-- end -->)`)
		if !block.MatchString(want) {
			t.Errorf("no place for %s", name)
		}
		want = block.ReplaceAllStringFunc(want, func(old string) string {
			head, _, _ := strings.Cut(old, "\n")
			return head + "\n" + text + "<!-- end -->"
		})
	}
	if ran < least {
		t.Errorf("only %d examples were run", ran)
	}
	t.Chdir(back)
	return want
}

// added are the lines of a sheet that its older form lacks, each under the keys
// that it belongs to.
func added(old, text string) string {
	var out []string
	var above []string // the keys over the line, outermost first
	had := strings.Split(old, "\n")
	for _, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		depth := len(l) - len(strings.TrimLeft(l, " "))
		for len(above) > 0 && len(above[len(above)-1])-len(strings.TrimLeft(above[len(above)-1], " ")) >= depth {
			above = above[:len(above)-1]
		}
		if above = append(above, l); l == "" || slices.Contains(had, l) {
			continue
		}
		for _, k := range above {
			if !slices.Contains(out, k) {
				out = append(out, k)
			}
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// twoCommands runs what can be run of the two commands inside a test.
func twoCommands(t *testing.T, body string) int {
	t.Helper()
	const both = "go run ./cmd/firstvolt demo\ngo test ./...\n"
	if body != both {
		t.Errorf("the two commands are %q", body)
	}
	var out, diagnostics bytes.Buffer
	if code := run([]string{"demo"}, &out, &diagnostics); code != 0 {
		t.Errorf("demo ends with %d: %s", code, diagnostics.String())
	}
	return 1
}

// session runs the one command of a console block and gives the block anew,
// cut to as many lines as it asks for.
func session(t *testing.T, body, limit string) string {
	t.Helper()
	command, _, _ := strings.Cut(body, "\n")
	line, ok := strings.CutPrefix(command, "$ firstvolt ")
	if !ok {
		t.Fatalf("not a call of firstvolt: %q", command)
	}
	var out bytes.Buffer
	code := run(strings.Fields(line), &out, &out)
	lines := strings.SplitAfter(strings.TrimRight(out.String(), "\n")+"\n", "\n")
	lines = lines[:len(lines)-1]
	if n, ok := strings.CutPrefix(limit, "lines="); ok {
		most, err := strconv.Atoi(n)
		if err != nil {
			t.Fatal(err)
		}
		if len(lines) > most {
			lines = append(lines[:most], "…\n")
		}
	}
	text := command + "\n" + strings.Join(lines, "")
	if strings.HasPrefix(line, "check ") {
		text += fmt.Sprintf("$ echo $?\n%d\n", code)
	}
	return text
}

func firstDifference(is, want string) string {
	a, b := strings.Split(is, "\n"), strings.Split(want, "\n")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return fmt.Sprintf("line %d is %q, want %q", i+1, a[i], b[i])
		}
	}
	return fmt.Sprintf("%d lines, want %d", len(a), len(b))
}

// What is written for people promises nothing, has each heading once, and keeps
// to its width outside its tables.
func TestReadmePromisesNothing(t *testing.T) {
	for _, file := range []string{readme, "../../checks/sheet/README.md", "../../rules/README.md"} {
		data := readAll(t, file)
		if m := regexp.MustCompile(`(?i)\bsafe(?:ly)?\b`).FindString(data); m != "" {
			t.Errorf("%s says %q", file, m)
		}
		headings := map[string]bool{}
		for _, l := range strings.Split(fenced.ReplaceAllString(data, ""), "\n") {
			if strings.HasPrefix(l, "#") && headings[l] {
				t.Errorf("%s: a heading stands twice: %s", file, l)
			}
			headings[l] = true
			if utf8.RuneCountInString(l) > 140 && !strings.HasPrefix(l, "|") {
				t.Errorf("%s: too long: %s", file, l)
			}
		}
	}
	data := readAll(t, readme)
	for _, want := range []string{"licensed practice", "Local electrical code", "cleared", "hold", "unproven"} {
		if !strings.Contains(data, want) {
			t.Errorf("it does not say %q", want)
		}
	}
}

// What the README's sheet leaves open is all that stands between it and its
// first voltage: with the bond read on a better meter and the last thing looked
// at, it is cleared.
func TestReadmeSheetMended(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(readmeSheets, "mantel.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "mantel.yaml")
	text := string(data)
	for i, change := range [][2]string{
		{"no-loose-hardware: not-seen", "no-loose-hardware: good"},
		{"reads: 0.1 Ω, with: pocket", "reads: 0.06 Ω, with: milliohm"},
	} {
		if i == 1 {
			text = strings.Replace(text, "\ncord:", "  milliohm: {measures: resistance, accuracy: 1 % + 2 mΩ, leads: nulled}\n\ncord:", 1)
		}
		if strings.Count(text, change[0]) != 1 {
			t.Fatalf("%q does not stand there once", change[0])
		}
		text = strings.Replace(text, change[0], change[1], 1)
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		if mended, err := os.ReadFile(filepath.Join(readmeSheets, "mantel-mended.yaml")); i == 1 && (err != nil || string(mended) != text) {
			t.Error("mantel-mended.yaml is not that sheet")
		}
		want := exitUnproven
		if i == 1 {
			want = exitCleared
		}
		var out bytes.Buffer
		if got := run([]string{"check", file}, &out, &out); got != want {
			t.Errorf("after change %d exit status %d, want %d\n%s", i+1, got, want, out.String())
		}
	}
}
