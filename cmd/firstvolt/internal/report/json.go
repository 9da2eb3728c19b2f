package report

import (
	"encoding/json"
	"strings"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
	"firstvolt/cmd/firstvolt/internal/judging"
	"firstvolt/rules"
)

// The types below are the machine output; the order of their fields is the
// order of its keys.
type (
	document struct {
		Firstvolt string `json:"firstvolt"` // the program's version
		Rulebook  string `json:"rulebook"`  // the rulebook's digest
		Sheets    []any  `json:"sheets"`    // judged or unreadable
	}
	judged struct {
		Sheet     string    `json:"sheet"`
		Digest    string    `json:"digest"`
		Stage     string    `json:"stage"`
		Verdict   string    `json:"verdict"`
		NotJudged []string  `json:"not_judged"`
		Findings  []finding `json:"findings"`
		carried
		StageFrom string   `json:"stage_from"` // sheet, option or default
		Reasons   []string `json:"reasons"`    // why it is at best unproven, besides any finding
		Counts    counts   `json:"counts"`
		Faults    []string `json:"faults,omitempty"` // of the program
	}
	carried struct {
		Cautions []caution `json:"cautions"`
		Owed     standing  `json:"owed"`
		Deferral standing  `json:"deferral"`
	}
	unread struct {
		Sheet  string  `json:"sheet"`
		Digest string  `json:"digest,omitempty"`
		Errors []wrong `json:"errors"`
	}
	wrong struct {
		strict.Pos
		Says string `json:"says"`
	}
	finding struct {
		Rule    string         `json:"rule"`
		Subject string         `json:"subject"`
		Outcome string         `json:"outcome"`
		Risk    string         `json:"risk"`
		Says    string         `json:"says"`
		Figure  rules.Measured `json:"figure"`
		Limit   *rules.Limit   `json:"limit"`
		Witness []string       `json:"witness"`
		Needs   []need         `json:"needs"`
		Why     string         `json:"why"`
		Remedy  string         `json:"remedy"`
		Basis   []basis        `json:"basis"`
		At      strict.Pos     `json:"at"`
		Group   string         `json:"group"`
		Note    string         `json:"note,omitempty"`
		Trace   []string       `json:"trace"` // the arithmetic, line by line
	}
	need struct {
		What string `json:"what"`
		How  string `json:"how,omitempty"`
	}
	basis struct {
		Status string `json:"status"`
		Source string `json:"source"`
	}
	caution struct {
		Name     string   `json:"name"`
		Step     []string `json:"step"`
		Text     string   `json:"text"`
		Subjects []string `json:"subjects"` // the things of the sheet that the text names
		Basis    []basis  `json:"basis"`
	}
	standing struct {
		Text  string  `json:"text"`
		Basis []basis `json:"basis"`
	}
	counts struct {
		Asked    int `json:"asked"`
		Fail     int `json:"fail"`
		Unproven int `json:"unproven"`
		Caution  int `json:"caution"`
		Pass     int `json:"pass"`
	}
)

// JSON is the machine output: one object, with every finding in full, in words
// that do not change with the region.
type JSON struct {
	Version  string // of the program
	Rulebook string // its digest
}

// place is how far in a sheet stands in the object.
const place = "    "

// around is the object without sheets, cut where they belong.
func (j JSON) around() (before, after string) {
	text := indentedJSON(document{Firstvolt: j.Version, Rulebook: j.Rulebook, Sheets: []any{}}, "")
	i := strings.LastIndex(text, "]")
	return text[:i], text[i:] + "\n"
}

// Before is the object up to its first sheet.
func (j JSON) Before() []byte {
	before, _ := j.around()
	return []byte(before)
}

// Sheet is one sheet, judged or unreadable.
func (j JSON) Sheet(s *judging.Sheet) []byte {
	if s.Judged() {
		return []byte("\n" + place + indentedJSON(machine(s), place))
	}
	return []byte("\n" + place + indentedJSON(errorsOf(s), place))
}

// Between parts two sheets.
func (j JSON) Between() string { return "," }

// After ends the object.
func (j JSON) After(n judging.Tally) string {
	_, after := j.around()
	if n.Sheets > 0 {
		after = "\n" + place[:len(place)/2] + after
	}
	return after
}

func indentedJSON(v any, prefix string) string {
	var out strings.Builder
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent(prefix, "  ")
	if err := e.Encode(v); err != nil {
		panic(err) // every value of the machine output has a JSON
	}
	return strings.TrimSuffix(out.String(), "\n")
}

func errorsOf(s *judging.Sheet) unread {
	out := unread{Sheet: s.File, Digest: s.Digest, Errors: []wrong{}}
	for _, p := range s.Problems {
		out.Errors = append(out.Errors, wrong{p.Pos, p.Says()})
	}
	for _, f := range s.Faults {
		out.Errors = append(out.Errors, wrong{Says: f})
	}
	return out
}

func machine(s *judging.Sheet) judged {
	j := s.Judgement
	out := judged{
		Sheet: s.File, Digest: s.Digest, Stage: j.Stage, Verdict: string(j.Verdict), NotJudged: list(j.NotJudged),
		Findings: []finding{}, carried: carriedBy(j.Carried), StageFrom: "sheet", Reasons: list(j.Reasons), Faults: s.Faults,
		Counts: counts{j.Counts.Asked, j.Counts.Fail, j.Counts.Unproven, j.Counts.Caution, j.Counts.Pass},
	}
	switch {
	case s.Asked != "":
		out.StageFrom = "option"
	case s.Own() == "":
		out.StageFrom = "default"
	}
	for _, f := range j.Findings {
		one := finding{
			Rule: f.Rule, Subject: f.Subject.Name, Outcome: string(f.Outcome), Risk: string(f.Risk), Says: f.Says,
			Figure: f.Figure, Limit: f.Limit, Witness: list(f.Witness), Needs: []need{}, Why: f.Why, Remedy: f.Remedy,
			Basis: bases(f.Basis), At: f.At, Group: f.Group, Note: f.Note, Trace: list(f.Trace),
		}
		for _, n := range f.Needs {
			one.Needs = append(one.Needs, need(n))
		}
		out.Findings = append(out.Findings, one)
	}
	return out
}

func carriedBy(c rules.Carried) carried {
	out := carried{Cautions: []caution{}, Owed: standing{c.Owed.Text, bases(c.Owed.Basis)}, Deferral: standing{c.Deferral.Text, bases(c.Deferral.Basis)}}
	for _, c := range c.Cautions {
		out.Cautions = append(out.Cautions, caution{c.Name, c.Steps, c.Text, list(c.Subjects), bases(c.Basis)})
	}
	return out
}

func bases(all []figure.Basis) []basis {
	out := []basis{}
	for _, b := range all {
		out = append(out, basis{string(b.Status), b.Source})
	}
	return out
}

// list is the list itself, never null.
func list(all []string) []string {
	if all == nil {
		return []string{}
	}
	return all
}
