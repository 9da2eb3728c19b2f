// Command firstvolt says whether a mains valve radio under restoration may get
// its first voltage: it reads the bench sheet of the set, judges it against a
// sourced rulebook and says why. Each command has a file of its own here; what
// they share stands in internal. Nothing here decides what is so (checks) or
// what must be so (rules).
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
)

func main() {
	judging.Brief()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// The exit statuses of every command that judges; for the others 0 is done.
const (
	exitCleared  = 0
	exitHold     = 1
	exitUnproven = 2
	exitUsage    = 3  // wrong use, or something unreadable
	exitFault    = 70 // a fault of the program
)

// usage is wrong use: what is wrong and, where there is one, what would be
// right, a line for each way out.
type usage struct{ wrong, hint string }

func (u usage) Error() string { return u.wrong }

// status ends a command with an exit status when all has been said.
type status int

func (s status) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// run is the program: arguments in, exit status out. A fault of the program
// never looks like a verdict.
func run(args []string, stdout, stderr io.Writer) (code int) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(stderr, "firstvolt: internal fault: %v\n", r)
			fmt.Fprintln(stderr, "  nothing that was printed before counts; please report it with the sheet")
			code = exitFault
		}
	}()
	app := application(stdout, stderr)
	args, err := arrange(app, args)
	if err == nil {
		err = app.Run(append([]string{"firstvolt"}, args...))
	}
	var u usage
	var s status
	switch {
	case err == nil:
		return 0
	case errors.As(err, &s):
		return int(s)
	case errors.As(err, &u):
		io.WriteString(stderr, report.Wrap(u.wrong, "firstvolt: ", "    "))
		if u.hint != "" {
			for _, h := range strings.Split(u.hint, "\n") {
				io.WriteString(stderr, report.Wrap(h, "  ", "    "))
			}
		}
		return exitUsage
	}
	fmt.Fprintln(stderr, "firstvolt: "+err.Error())
	return exitFault
}
