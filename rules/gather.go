package rules

import (
	"slices"
	"strings"

	"firstvolt/checks/figure"
)

// gathers are the words of a rule's gather key: the part that the subjects
// belong to, or the set.
var gathers = []string{"part", "set"}

// answered is what a rule said of one subject.
type answered struct {
	Finding
	by answer // that decided
}

// gather makes one caution of those of a rule that have one cause: of several
// subjects the same is not known, or the same is so. Its subject is the part
// that they belong to, or the set; its sentence names them all. A caution on a
// number that is known stays its subject's own, as everything worse does.
func gather(r *Rule, set figure.Setting, all []answered) []Finding {
	type cause struct {
		clause *Clause
		known  bool
		limit  string
		holder string
	}
	var out []Finding
	var order []cause
	members := map[cause][]answered{}
	for _, s := range all {
		known := s.by.figure.Known()
		if r.Gather == "" || s.Outcome != Warn || known && s.by.figure.Present == nil {
			out = append(out, s.Finding)
			continue
		}
		k := cause{s.by.clause, known, s.by.limit.String(), "set"}
		if r.Gather == "part" {
			k.holder, _, _ = strings.Cut(s.Subject.Name, ".")
		}
		if members[k] == nil {
			order = append(order, k)
		}
		members[k] = append(members[k], s)
	}
	for _, k := range order {
		out = append(out, together(members[k], holder(set, k.holder)))
	}
	return out
}

// together is the finding of several subjects; of one alone it stays as it is.
func together(of []answered, holder figure.Subject) Finding {
	f := of[0].Finding
	if len(of) == 1 {
		return f
	}
	var names []string
	f.Needs, f.Trace, f.Witness = nil, nil, nil
	for _, s := range of {
		names = append(names, s.Subject.Name)
		f.Gathered = append(f.Gathered, s.Subject)
		for _, n := range s.Needs {
			if !slices.Contains(f.Needs, n) {
				f.Needs = append(f.Needs, n)
			}
		}
		for _, b := range s.Basis {
			if !slices.Contains(f.Basis, b) {
				f.Basis = append(f.Basis, b)
			}
		}
		if s.Note != f.Note {
			f.Note = ""
		}
	}
	by := of[0].by
	by.figure.Witness = nil
	f.Says = sentence(by, figure.Subject{Name: strings.Join(names, ", ")})
	f.Subject = holder
	return f
}

// holder is the subject that a gathered finding is of.
func holder(set figure.Setting, name string) figure.Subject {
	for _, want := range []string{name, "set"} {
		if i := slices.IndexFunc(set.Subjects, func(s figure.Subject) bool { return s.Name == want }); i >= 0 {
			return set.Subjects[i]
		}
	}
	return figure.Subject{Name: "set", Kind: "set"}
}
