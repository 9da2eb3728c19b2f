package judging

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"firstvolt/checks/strict"
)

// Files lists the sheets that the arguments name: a file is itself, a folder
// every .yaml and .yml directly in it, by name. An argument that gives nothing
// to read is a problem, so that asking for nothing never looks like passing.
func Files(args []string) (files []string, problems []strict.Problem) {
	for _, arg := range args {
		info, err := os.Stat(arg)
		if err != nil || !info.IsDir() {
			files = append(files, arg) // what is wrong with it comes up when it is read
			continue
		}
		entries, err := os.ReadDir(arg)
		if err != nil {
			problems = append(problems, unreadable(arg, err))
			continue
		}
		found := false
		for _, e := range entries {
			path := filepath.Join(arg, e.Name())
			if ext := strings.ToLower(filepath.Ext(e.Name())); ext != ".yaml" && ext != ".yml" {
				continue
			}
			if info, err := os.Stat(path); err == nil && info.IsDir() {
				continue
			}
			files, found = append(files, path), true
		}
		if !found {
			problems = append(problems, strict.Problem{File: arg, Wrong: "no sheet in this folder", Right: "a sheet's name ends in .yaml or .yml, and it lies in the folder itself"})
		}
	}
	return files, problems
}

// readFile reads a regular file, one byte over the size that a sheet may have
// at most. Anything else than a regular file is refused before it is opened:
// a device or a pipe may never end.
func readFile(path string) ([]byte, *strict.Problem) {
	info, err := os.Stat(path)
	if err != nil {
		p := unreadable(path, err)
		return nil, &p
	}
	if !info.Mode().IsRegular() {
		return nil, &strict.Problem{File: path, Wrong: "this is " + sort(info.Mode()) + ", not a file", Right: "name a file"}
	}
	f, err := os.Open(path)
	if err != nil {
		p := unreadable(path, err)
		return nil, &p
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, strict.MaxBytes+1))
	if err != nil {
		p := unreadable(path, err)
		return nil, &p
	}
	return data, nil
}

func sort(m fs.FileMode) string {
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

func unreadable(path string, err error) strict.Problem {
	switch {
	case path == "":
		return strict.Problem{File: `""`, Wrong: "an empty file name", Right: "name a file or a folder"}
	case errors.Is(err, fs.ErrNotExist):
		return strict.Problem{File: path, Wrong: "no such file or folder", Right: "look at its spelling and at the folder you are in"}
	case errors.Is(err, fs.ErrPermission):
		return strict.Problem{File: path, Wrong: "it may not be read", Right: "look at who may read it"}
	}
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err
	}
	return strict.Problem{File: path, Wrong: "it cannot be read (" + err.Error() + ")"}
}

func sum(data []byte) string { return fmt.Sprintf("sha256:%x", sha256.Sum256(data)) }
