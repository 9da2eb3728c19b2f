package main

import (
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"firstvolt/checks/strict"
)

// application puts the commands together.
func application(stdout, stderr io.Writer) *cli.App {
	app := &cli.App{
		Name:      "firstvolt",
		Usage:     "may this set have its first voltage?",
		Writer:    stdout,
		ErrWriter: stderr,
		HideHelp:  true, HideVersion: true, // both are taken by arrange
		DisableSliceFlagSeparator: true,
		ExitErrHandler:            func(*cli.Context, error) {}, // run alone ends the program
		OnUsageError:              wrongUse,
		Commands:                  []*cli.Command{demoCommand(), startCommand(), checkCommand(), whyCommand(), faultsCommand(), netlistCommand(), rulebookCommand(), schemaCommand(), helpCommand(), versionCommand()},
	}
	app.Action = func(c *cli.Context) error {
		if name := c.Args().First(); name != "" {
			return noSuchCommand(app, name)
		}
		stderr.Write(helpOfAll(app))
		return status(exitUsage) // nothing was judged
	}
	for _, c := range app.Commands {
		c.HideHelp, c.OnUsageError = true, wrongUse
	}
	return app
}

// wrongUse words a fault of the options.
func wrongUse(c *cli.Context, err error, _ bool) error {
	text := strings.Replace(err.Error(), "flag provided but not defined: -", "there is no option --", 1)
	hint := "see firstvolt help"
	if c.Command != nil && c.Command.Name != "" && c.Command.Name != "firstvolt" {
		hint += " " + c.Command.Name
	}
	return usage{text, hint}
}

func noSuchCommand(app *cli.App, name string) error {
	var names []string
	for _, c := range app.Commands {
		if !c.Hidden {
			names = append(names, c.Name)
		}
	}
	return usage{fmt.Sprintf("there is no command %q", name), strict.Suggest(name, names, "see firstvolt help")}
}

// arrange puts the options of a command before its other arguments, so that
// they count wherever they stand: left behind a file name they would be taken
// for a file. It also refuses an option given twice, of which one would be
// lost, and finds the calls for help and version.
func arrange(app *cli.App, args []string) ([]string, error) {
	end := slices.Index(args, "--")
	if end < 0 {
		end = len(args)
	}
	if len(args) == 0 || end == 0 {
		return args, nil
	}
	for _, a := range args[:end] {
		if a == "--help" || a == "-help" || a == "-h" {
			if strings.HasPrefix(args[0], "-") {
				return []string{"help"}, nil
			}
			return []string{"help", args[0]}, nil
		}
	}
	if args[0] == "--version" || args[0] == "-version" {
		return append([]string{"version"}, args[1:]...), nil
	}
	i := slices.IndexFunc(app.Commands, func(c *cli.Command) bool { return c.Name == args[0] })
	if i < 0 {
		return args, nil
	}
	var options, rest []string
	seen := map[string]bool{}
	for n := 1; n < end; n++ {
		a := args[n]
		if !strings.HasPrefix(a, "-") || a == "-" {
			rest = append(rest, a)
			continue
		}
		name, _, joined := strings.Cut(strings.TrimLeft(a, "-"), "=")
		takesValue, many := optionOf(app.Commands[i], name)
		if seen[name] && !many {
			return nil, usage{fmt.Sprintf("the option --%s stands here twice", name), "keep one of them"}
		}
		seen[name] = true
		options = append(options, a)
		if !takesValue || joined {
			continue
		}
		if n++; n == end {
			return nil, usage{"a value is missing after --" + name, "see firstvolt help " + args[0]}
		}
		options = append(options, args[n])
	}
	if end < len(args) {
		rest = append(rest, args[end+1:]...)
	}
	return slices.Concat(args[:1], options, []string{"--"}, rest), nil
}

// optionOf tells whether an option takes a value and may stand several times.
func optionOf(c *cli.Command, name string) (takesValue, many bool) {
	for _, f := range c.Flags {
		if !slices.Contains(f.Names(), name) {
			continue
		}
		_, isBool := f.(*cli.BoolFlag)
		_, isSlice := f.(*cli.StringSliceFlag)
		return !isBool, isSlice
	}
	return false, false
}

// oneOf is the value of an option that has a closed list of words.
func oneOf(c *cli.Context, option string, words ...string) (string, error) {
	v := c.String(option)
	if slices.Contains(words, v) {
		return v, nil
	}
	return "", usage{fmt.Sprintf("--%s cannot be %q", option, v), "one of: " + strings.Join(words, ", ")}
}

// version is that of the module as built, or devel.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" && info.Main.Version != "(devel)" {
		return info.Main.Version
	}
	return "devel"
}

func versionCommand() *cli.Command {
	return &cli.Command{Name: "version", Hidden: true, Action: func(c *cli.Context) error {
		_, err := fmt.Fprintln(c.App.Writer, "firstvolt "+version())
		return err
	}}
}
