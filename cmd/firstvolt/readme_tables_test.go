package main

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"firstvolt/checks"
	"firstvolt/checks/figure"
	"firstvolt/checks/quantity"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/cmd/firstvolt/internal/report"
	"firstvolt/rules"
)

// tables are the parts of the README that are made from the program.
func tables(t *testing.T) map[string]string {
	t.Helper()
	return map[string]string{"verdicts": verdictTable(), "not judged": notJudgedYet(t), "commands": commandTable()}
}

// ruleTables are the parts of the rulebook's README that are made from it.
func ruleTables() map[string]string {
	rule, clause := rules.Keys()
	return map[string]string{"rule keys": ruleKeys(rule), "clause keys": ruleKeys(clause), "facts": factTable(), "figures": figureTable()}
}

func ruleKeys(keys []strict.Key) string {
	out := "| key | what it says |\n|---|---|\n"
	for _, k := range keys {
		name := "`" + k.Name + "`"
		if k.Required {
			name = "**" + name + "**"
		}
		says := k.Doc
		if t := k.Shape.Text; t != nil && t.Words != nil && k.Shape.Map == nil {
			says += ": `" + strings.Join(t.Words, "`, `") + "`"
		}
		out += fmt.Sprintf("| %s | %s |\n", name, says)
	}
	return out
}

func factTable() string {
	out := "| fact | its words |\n|---|---|\n"
	for _, name := range slices.Sorted(maps.Keys(figure.FactNames)) {
		words := "a span, like `0 A to 3 A`, or `none`"
		switch {
		case rules.FactWords[name] != nil:
			words = "`" + strings.Join(rules.FactWords[name], "`, `") + "`"
		case !figure.FactNames[name]:
			words = "any word"
		}
		out += fmt.Sprintf("| `%s` | %s |\n", name, words)
	}
	return out
}

func figureTable() string {
	out := "| figure | subjects | what it is |\n|---|---|---|\n"
	all := checks.Catalogue()
	slices.SortFunc(all, func(a, b figure.Def) int { return strings.Compare(a.Name, b.Name) })
	for _, d := range all {
		says := strings.TrimSuffix(d.Says, ".")
		switch {
		case d.Present:
			says = "present where " + strings.ToLower(says[:1]) + says[1:]
		case d.Unit != quantity.Number:
			says += ", in " + d.Unit.Unit()
		}
		out += fmt.Sprintf("| `%s` | `%s` | %s |\n", d.Name, strings.Join(d.Of, "` `"), says)
	}
	return out
}

func verdictTable() string {
	out := "| verdict of `check` | means | exit status |\n|---|---|---|\n"
	for _, r := range []struct {
		word, means string
		status      int
	}{
		{report.Verdict(rules.Cleared), "of what the stage asks nothing fails, and nothing required is open", exitCleared},
		{report.Verdict(rules.Hold), "something fails: no voltage", exitHold},
		{report.Verdict(rules.Open), "nothing fails, but something required is not known or not proved: no voltage yet", exitUnproven},
		{"UNREADABLE", "the sheet has slips, or the command was not understood; nothing was judged", exitUsage},
		{"", "a fault of this program; nothing that it printed counts", exitFault},
	} {
		word := "none"
		if r.word != "" {
			word = "`" + r.word + "`"
		}
		out += fmt.Sprintf("| %s | %s | %d |\n", word, r.means, r.status)
	}
	return out + "\nOf several sheets the worst counts: 70, 3, 1, 2, 0. **A status counts only with a verdict printed**: a program\nthat was ended from outside has a status too. Under the verdict stands each finding: `FAIL`, `UNPROVEN`, `CAUTION`,\n`PASS`; and whether it is a matter of shock, of fire or of damage to the set.\n"
}

// meant says what each group of rules is about, for those that may be missing.
var meant = map[string]string{
	"high-tension": "rectifier, filter capacitors and what they feed",
	"faults":       "what each single part does when it fails short or open",
}

// notJudgedYet asks the program: the whole example is judged at every stage.
func notJudgedYet(t *testing.T) string {
	t.Helper()
	book, problems, _ := judging.Book(nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	data, err := os.ReadFile(larkfield)
	if err != nil {
		t.Fatal(err)
	}
	var groups []string
	rail := false
	for _, stage := range rules.Stages {
		j := judging.Bytes(book, larkfield, data, stage).Judgement
		for _, g := range j.NotJudged {
			if !slices.Contains(groups, g) {
				groups = append(groups, g)
			}
		}
		rail = rail || len(j.Reasons) > 0 && stage == "rail"
	}
	if len(groups) == 0 {
		return "Every group of rules is judged.\n"
	}
	out := "**Not judged yet:**\n\n"
	for _, g := range rules.Groups {
		if slices.Contains(groups, g) {
			if meant[g] == "" {
				t.Errorf("the README does not know what the group %s is about", g)
			}
			out += fmt.Sprintf("- %s: %s\n", strings.ReplaceAll(g, "-", " "), meant[g])
		}
	}
	if rail {
		out += "\nThe first line of every judgement names them. Until they are judged no set is cleared at the rail,\nand none at all but a transformer set whose chassis is bonded.\n"
	}
	return out
}

func commandTable() string {
	out := "| command | what it does |\n|---|---|\n"
	for _, c := range application(nil, nil).Commands {
		if !c.Hidden {
			out += fmt.Sprintf("| `firstvolt %s` | %s |\n", strings.TrimSpace(c.Name+" "+c.ArgsUsage), c.Usage)
		}
	}
	return out
}
