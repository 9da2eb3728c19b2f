package rules

import (
	"slices"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
)

// Risk is the kind of harm that a rule guards against.
type Risk string

// The risks, worst first: findings are printed in this order.
const (
	Shock  Risk = "shock"
	Fire   Risk = "fire"
	Set    Risk = "set"
	Advice Risk = "advice"
)

var risks = []string{string(Shock), string(Fire), string(Set), string(Advice)}

// rank is the place of a risk in the order of danger; an unknown one is worst.
func (r Risk) rank() int {
	for i, w := range risks {
		if w == string(r) {
			return i
		}
	}
	return -1
}

// highTension is the group of what stands behind the rectifier's sockets: the
// stage rail is its own.
const highTension = "high-tension"

// Groups is the closed list of rule groups, in the order they are named.
var Groups = []string{"entry", "ratings", "readings", "inspection", highTension, "faults", "firstpower"}

// Stages is the closed list of stages, least energy first.
var Stages = []string{"bare", "heaters", "rail"}

// Rule is one demand on every subject of some kinds, with its reasons.
type Rule struct {
	Name    string
	canon   string // the name with synonyms made one
	Group   string
	Of      []string // subject kinds
	Risk    Risk
	Stages  []string // the stages that ask it, never empty
	When    Condition
	Gather  string      // of what the cautions of one cause are one finding: part, set, or nothing
	AskedIf string      // a present-or-absent figure of the same subject, or empty
	IfDef   *figure.Def // that figure's definition, or nil
	Asks    string      // what it asks, one sentence; made of the clauses where the file has none
	Clauses []Clause
	Why     string
	Remedy  string
	Basis   []figure.Basis
	Example Example
	Shop    bool   // from a shop's rulebook
	File    string // where it stands
	At      strict.Pos
}

// Clause is one demand on one figure.
type Clause struct {
	Figure string
	Def    *figure.Def
	Demand
	Limits []Case    // demands that stand in place of the clause's own
	When   Condition // beside the rule's
	// AskedIf is a present-or-absent figure of the same subject beside the
	// rule's own, or empty; IfDef its definition.
	AskedIf string
	IfDef   *figure.Def
	Says    Wording
	Shop    bool
	Risk    Risk   // where the clause decides; empty: the rule's
	Why     string // likewise
	Remedy  string // likewise
	// Unproven stands in place of Remedy where nothing is wrong yet, only not known.
	Unproven string
	Basis    []figure.Basis // of the clause alone; empty: the rule's
	At       strict.Pos
}

// Demand is what is asked of a figure; a nil limit asks nothing. Beyond a must
// is a failure, not known is unproven. An if-read is a must for a reading that
// nobody owes: while it was not taken, a caution. A should is never more than
// a caution, known or not.
type Demand struct{ Must, IfRead, Should *Limit }

// hard is what a known value must keep.
func (d Demand) hard() *Limit { return d.Must.and(d.IfRead) }

// asks tells whether it asks anything.
func (d Demand) asks() bool { return d.Must != nil || d.IfRead != nil || d.Should != nil }

// limits are those that it has.
func (d Demand) limits() []*Limit {
	return slices.DeleteFunc([]*Limit{d.Must, d.IfRead, d.Should}, func(l *Limit) bool { return l == nil })
}

// Case is a demand for a condition.
type Case struct {
	When Condition
	Demand
}

// Wording is how a finding speaks of a figure; empty texts leave it to the
// figure's own sentence.
type Wording struct {
	Number, Present, Absent string
	Over                    string // of a number that is what is left and is less than nothing; the amount stands after it
}

// asked tells whether the stage asks the rule.
func (r *Rule) asked(stage string) bool { return slices.Contains(r.Stages, stage) }

// of tells whether the rule is about subjects of this kind.
func (r *Rule) of(kind string) bool { return slices.Contains(r.Of, kind) }
