package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/handbook"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/blank"
	"firstvolt/cmd/firstvolt/internal/report"
)

const homeRegion = "north-america" // taken where --region is not given, and said

func startCommand() *cli.Command {
	return &cli.Command{
		Name: "start", ArgsUsage: "NAME", Usage: "write NAME.yaml, a commented sheet to fill in",
		Description: startHelp(),
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "like", Usage: "the `KIND` of set; the list stands above"},
			&cli.StringFlag{Name: "region", Value: homeRegion, Usage: "the `REGION` it will be used in; " + homeRegion + " if not given"},
		},
		Action: start,
	}
}

// startHelp lists the kinds and the regions.
func startHelp() string {
	var out []string
	for _, k := range blank.Kinds() {
		out = append(out, k.Name+": "+k.Says+".")
	}
	return "A file that is there already is never touched.\n\n" + strings.Join(out, "\n\n") +
		"\n\nRegions: " + strings.Join(handbook.Regions(), ", ") + ".\n\nThe sheet reads as it is and comes out unproven: it claims nothing yet."
}

func start(c *cli.Context) error {
	if c.Args().Len() != 1 {
		return usage{"start needs one name", "firstvolt start NAME --like KIND; a name with spaces goes in quotes"}
	}
	if !c.IsSet("like") {
		return usage{"start needs the kind of set", "--like " + strings.Join(blank.Names(), ", --like ")}
	}
	kind, err := known(c, "like", blank.Names())
	if err != nil {
		return err
	}
	region, err := known(c, "region", handbook.Regions())
	if err != nil {
		return err
	}
	path, set, err := sheetPath(c.Args().First())
	if err != nil {
		return err
	}
	data, err := blank.Sheet(set, kind, region)
	if err != nil {
		return err
	}
	if err := writeNew(path, data); err != nil {
		return usage{fmt.Sprintf("%s was not written: %s", report.Clean(path), reasonOf(err)), notWritten(err)}
	}
	shown := report.Clean(path)
	where := region
	if !c.IsSet("region") {
		where += " (for another: --region)"
	}
	if strings.Contains(shown, " ") {
		shown = `"` + shown + `"`
	}
	_, err = fmt.Fprint(c.App.Writer, report.Wrap(fmt.Sprintf("%s is written: %s, %s. Fill in what you know, then judge it:", shown, kind, where), "", "")+"  firstvolt check "+shown+"\n")
	return err
}

// known is the word of an option that must be one of a list; a slip is met
// with the nearest.
func known(c *cli.Context, option string, words []string) (string, error) {
	v, err := oneOf(c, option, words...)
	var u usage
	if errors.As(err, &u) {
		u.hint = strict.Suggest(c.String(option), words, u.hint)
		return "", u
	}
	return v, err
}

// sheetPath is the file for a name, and the name that the set gets.
func sheetPath(name string) (path, set string, err error) {
	path = name
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".yaml" && ext != ".yml" {
		path += ".yaml"
	}
	set = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	if strings.Trim(set, " .-_") == "" || strings.HasSuffix(name, string(filepath.Separator)) {
		return "", "", usage{fmt.Sprintf("%q is not a name for a sheet", name), "a name like larkfield"}
	}
	for _, r := range set {
		if !unicode.IsPrint(r) {
			return "", "", usage{fmt.Sprintf("%q has a mark in it that cannot be printed", name), "a name like larkfield"}
		}
	}
	return path, set, nil
}

// writeNew writes a file that must not be there yet: whole beside it first,
// then linked to its name in one step, which fails where that name is taken.
func writeNew(path string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".firstvolt-*")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(data)
	err = errors.Join(err, f.Chmod(0o644), f.Sync(), f.Close())
	if err != nil {
		return err
	}
	if err = os.Link(f.Name(), path); err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	// No links on this disk: the name is taken first, the whole file put there.
	held, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	return errors.Join(held.Close(), os.Rename(f.Name(), path))
}

func reasonOf(err error) string {
	switch {
	case errors.Is(err, fs.ErrExist):
		return "it is there already"
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such folder"
	case errors.Is(err, fs.ErrPermission):
		return "nothing may be written in that folder"
	}
	return err.Error()
}

func notWritten(err error) string {
	if errors.Is(err, fs.ErrExist) {
		return "it was left as it is; take another name"
	}
	return "name a folder that is there and may be written to"
}
