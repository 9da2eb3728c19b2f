package rules

import (
	"fmt"
	"slices"
	"strings"

	"firstvolt/checks/figure"
)

// Verdict is what a judgement comes to for its stage.
type Verdict string

// The verdicts of machine output.
const (
	Hold    Verdict = "hold"
	Open    Verdict = "unproven"
	Cleared Verdict = "cleared"
)

// Judgement is everything that a rulebook says of a set at one stage.
type Judgement struct {
	Stage     string
	Verdict   Verdict
	Findings  []Finding
	NotJudged []string // groups with rules that the stage asks for and the book lacks
	Reasons   []string // why the verdict is at best unproven, besides any finding
	Counts    Counts
	Carried
}

// Carried is what every judgement of a set at one stage carries, whatever comes
// of it.
type Carried struct {
	Cautions []Caution // for the first voltage and after
	Owed     Standing  // what no bench reading can stand for
	Deferral Standing
}

// Carried is what a judgement of the set at the stage carries, without judging:
// for those that say what is so. A stage that is none of ours counts as rail.
func (b *Book) Carried(set figure.Setting, stage string) Carried {
	stage = ours(stage)
	set.Facts = withStage(set.Facts, stage)
	return Carried{Cautions: b.Cautions(set, stage, "power", "after"), Owed: b.owed.of(set), Deferral: b.deferral.of(set)}
}

// ours is the stage, or rail, which asks most.
func ours(stage string) string {
	if slices.Contains(Stages, stage) {
		return stage
	}
	return "rail"
}

// Counts says how many rules were asked, by outcome. Asked is the number of
// findings and the sum of the others.
type Counts struct{ Asked, Pass, Caution, Unproven, Fail int }

// groupsAsked are the groups that a complete book has rules of at this stage.
// Bare iron has no high tension to judge, unless something of it is soldered to it, or
// the set is none that has a transformer to bare; from heaters on its heater
// rules are due.
func groupsAsked(stage string, facts map[string]figure.Fact) []string {
	if stage == "bare" && facts["construction"].Word == "transformer" && facts["soldered-supply"].Word != "present" {
		return slices.DeleteFunc(slices.Clone(Groups), func(g string) bool { return g == highTension })
	}
	return Groups
}

// notJudged names the groups that are due and of which the book has no rule
// for the stage. A shop's rule does not make a group judged: it adds to what
// is asked and cannot stand for what is missing.
func (b *Book) notJudged(stage string, notAsked []string, facts map[string]figure.Fact) []string {
	out := []string{}
	for _, g := range groupsAsked(stage, facts) {
		if slices.Contains(notAsked, g) || !slices.ContainsFunc(b.rules, func(r *Rule) bool { return r.Group == g && !r.Shop && r.asked(stage) }) {
			out = append(out, g)
		}
	}
	return out
}

// conclude counts the outcomes and draws the verdict.
func (j *Judgement) conclude(set figure.Setting, facts map[string]figure.Fact) {
	for _, f := range j.Findings {
		j.Counts.Asked++
		switch f.Outcome {
		case Pass:
			j.Counts.Pass++
		case Warn:
			j.Counts.Caution++
		case Unproven:
			j.Counts.Unproven++
		default:
			j.Counts.Fail++
		}
	}
	j.Reasons = atBest(set, facts, *j)
	switch {
	case j.Counts.Fail > 0:
		j.Verdict = Hold
	case j.Counts.Unproven > 0 || len(j.Reasons) > 0:
		j.Verdict = Open
	default:
		j.Verdict = Cleared
	}
}

// atBest gives the reasons for which a set is at best unproven whatever its
// findings. Until the fault table and the rules of the high tension exist, cleared is for
// the stages bare and heaters of a bonded transformer set only: there the bond
// and the primary's insulation, which are judged, stand between a single fault
// and the hand. Without any other group nothing is cleared at all.
func atBest(set figure.Setting, facts map[string]figure.Fact, j Judgement) []string {
	reasons := []string{}
	if set.AtBest != "" {
		reasons = append(reasons, set.AtBest)
	}
	if j.Counts.Asked == 0 {
		reasons = append(reasons, "no rule was asked")
	}
	// What the setting did not ask, its own reason has said.
	lacking := slices.DeleteFunc(slices.Clone(j.NotJudged), func(g string) bool {
		return g == highTension || g == "faults" || set.AtBest != "" && slices.Contains(set.NotAsked, g)
	})
	if len(lacking) > 0 {
		reasons = append(reasons, fmt.Sprintf("the %s rules were not judged", strings.Join(lacking, " and ")))
	}
	missing := slices.DeleteFunc(slices.Clone(j.NotJudged), func(g string) bool { return g != highTension && g != "faults" })
	if len(missing) == 0 {
		return reasons
	}
	which := strings.ReplaceAll(strings.Join(missing, " and "), "-", " ")
	rail, bonded := j.Stage == "rail", bondedTransformer(facts)
	switch {
	case rail && !bonded:
		reasons = append(reasons, fmt.Sprintf("without the %s rules only a transformer set on a bonded chassis is cleared, and no further than its heaters", which))
	case rail:
		reasons = append(reasons, fmt.Sprintf("without the %s rules no rail is cleared", which))
	case facts["soldered-supply"].Word == "present":
		reasons = append(reasons, fmt.Sprintf("without the %s rules no set is cleared whose rectifier is soldered in, or that has an electrolytic across a winding: every stage energizes them", which))
	case !bonded:
		reasons = append(reasons, fmt.Sprintf("without the %s rules only a transformer set on a bonded chassis is cleared", which))
	}
	return reasons
}

// bondedTransformer tells whether the set is known to be a transformer set on
// three conductors whose chassis is joined to the ground pin.
func bondedTransformer(facts map[string]figure.Fact) bool {
	return facts["construction"].Word == "transformer" && facts["bonded"].Word == "yes" && facts["plug-ground"].Word == "present"
}
