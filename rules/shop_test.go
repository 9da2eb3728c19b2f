package rules

import (
	"strings"
	"testing"

	"firstvolt/checks/figure"
	"firstvolt/checks/strict"
)

func TestShopAdds(t *testing.T) {
	base := book(t, rule("bond-resistance", bondRule))
	shop, problems := LoadShop(base, "shop.yaml", []byte("rules:\n"+
		"  bond-resistance:\n    clauses: [{figure: bond, must: {at_most: 50 mΩ}}]\n    basis: [{status: published, source: our bench book}]\n    remedy: see the bench book\n"+
		rule("shop-leak", "group: readings\nof: chassis\nrisk: shock\nclauses: [{figure: leak, must: {at_most: 0.1 mA}}]")))
	if shop == nil {
		t.Fatal(problems)
	}
	f := shop.Judge(set(), []figure.Figure{ohms(0.06, 0.07)}, "bare").Findings
	if len(f) != 2 || f[0].Outcome != Fail || f[0].Remedy != "see the bench book" || f[0].Why != "it matters" {
		t.Errorf("got %+v", f)
	}
	if f[0].Basis[0] != (figure.Basis{Status: figure.Shop, Source: "our bench book"}) || f[1].Basis[0].Status != figure.Shop {
		t.Errorf("basis %v, %v", f[0].Basis, f[1].Basis)
	}
	if f := base.Judge(set(), []figure.Figure{ohms(0.06, 0.07)}, "bare").Findings; len(f) != 1 || f[0].Outcome != Pass {
		t.Errorf("the base book changed: %+v", f)
	}
	if shop.Digest() == base.Digest() {
		t.Error("the digest does not see the shop's file")
	}
	again, _ := LoadShop(base, "elsewhere/other.yaml", []byte("rules:\n"+rule("shop-leak", "group: readings\nof: chassis\nrisk: shock\nclauses: [{figure: leak, must: {at_most: 0.1 mA}}]")))
	if again.Digest() == shop.Digest() || again.Digest() == base.Digest() {
		t.Error("two shops have one digest")
	}
}

// TestShopJudgesNoGroup: a shop's rule in a group that the book lacks must not
// make that group count as judged, which would loosen the verdict.
func TestShopJudgesNoGroup(t *testing.T) {
	base := every(t, "faults")
	shop, problems := LoadShop(base, "shop.yaml", []byte("rules:\n"+rule("mine", "group: faults\nof: chassis\nrisk: advice\nclauses: [{figure: bond, should: {at_most: 0.2 Ω}}]")))
	if shop == nil {
		t.Fatal(problems)
	}
	s := set("construction", "transformer", "bonded", "yes", "plug-ground", "present")
	if j := shop.Judge(s, []figure.Figure{ohms(0, 0.1)}, "rail"); j.Verdict != Open || len(j.NotJudged) != 1 {
		t.Errorf("%s, not judged %v", j.Verdict, j.NotJudged)
	}
}

func TestShopRefused(t *testing.T) {
	base := book(t, rule("bond-resistance", bondRule),
		rule("hot-off", "group: entry\nof: set\nrisk: shock\nclauses: [{figure: hot-early, must: absent}]"),
		rule("tip", "group: readings\nof: chassis\nrisk: advice\nclauses: [{figure: bond, should: {at_most: 1 Ω}}]"))
	extend := func(clause string) string {
		return "rules:\n  bond-resistance:\n    basis: [{status: shop, source: us}]\n    clauses: [" + clause + "]\n"
	}
	for _, c := range []struct{ name, text, want string }{
		{"looser", extend("{figure: bond, must: {at_most: 1 Ω}}"), "shop.yaml:4:15: the clause on bond has no effect"},
		{"the same", extend("{figure: bond, must: {at_most: 100 mΩ}}"), "shop.yaml:4:15: the clause on bond has no effect"},
		{"looser where facts hold", extend("{figure: bond, must: {at_most: 1 Ω}, when: {bonded: yes}}"), "shop.yaml:4:15: the clause on bond has no effect"},
		{"a should where a must stands", extend("{figure: bond, should: {at_most: 0.1 Ω}}"), "shop.yaml:4:15: the clause on bond has no effect"},
		{"if-read where a must stands", extend("{figure: bond, if-read: {at_most: 0.1 Ω}}"), "has no effect"},
		{"no demand", extend("{figure: bond}"), "shop.yaml:4:15: the clause on bond has no effect"},
		{"unknown figure", extend("{figure: bint, must: present}"), "shop.yaml:4:24: no figure is called"},
		{"another kind", extend("{figure: hot-early, must: absent}"), "shop.yaml:4:24: hot-early is not computed for a chassis"},
		{"advice made a must", "rules:\n  tip:\n    basis: [{status: shop, source: us}]\n    clauses: [{figure: bond, must: {at_most: 0.5 Ω}}]\n", "shop.yaml:4:36: advice has no must"},
		{"another risk", "rules:\n  bond-resistance:\n    risk: advice\n    basis: [{status: shop, source: us}]\n    clauses: [{figure: bond, must: {at_most: 0.01 Ω}}]\n", "shop.yaml:3:5: risk is not a key of bond-resistance"},
		{"fewer stages", "rules:\n  bond-resistance:\n    stages: rail\n    basis: [{status: shop, source: us}]\n    clauses: [{figure: bond, must: {at_most: 0.01 Ω}}]\n", "shop.yaml:3:5: stages is not a key of bond-resistance"},
		{"no basis", "rules:\n  bond-resistance:\n    clauses: [{figure: bond, must: {at_most: 0.01 Ω}}]\n", "shop.yaml:2:3: bond-resistance has no basis"},
		{"a rule by its synonym", "rules:\n  live-off:\n    why: x\n", "shop.yaml:2:3: hot-off has no clauses"},
		{"a whole rule without remedy", strings.Replace("rules:\n"+rule("mine", bondRule), "    remedy: put it right\n", "", 1), "shop.yaml:2:3: mine has no remedy"},
		{"a bad name", "rules:\n" + rule("Mine_1", bondRule), "shop.yaml:2:3: \"Mine_1\" is not a name"},
		{"cautions", "cautions: {}\n", "shop.yaml:1:1: cautions is not a key"},
		{"no rules", "rules: {}\n", "shop.yaml:1:8: no rules here"},
		{"empty", "", "shop.yaml:1:1: the file is empty"},
		{"binary", "\x7fELF\x00\x01", "shop.yaml:1:"},
		{"not UTF-8", "rules: \xff", "shop.yaml:1:8: the byte 0xFF"},
		{"huge", strings.Repeat("# x\n", strict.MaxBytes/3), "shop.yaml:1:1: the file is larger than"},
		{"huge and blank", strings.Repeat(" ", strict.MaxBytes+5), "shop.yaml:1:1: the file is"},
		{"deep", "rules: " + strings.Repeat("[", 5000), "nested deeper than"},
		{"anchor", "rules: &a {}\n", "anchors are not part"},
		{"a sheet", "firstvolt: 1\nset: {name: Larkfield}\n", "shop.yaml:1:1: firstvolt is not a key"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, problems := LoadShop(base, "shop.yaml", []byte(c.text))
			if b != nil {
				t.Fatal("a book in spite of the fault")
			}
			found := false
			for _, p := range problems {
				found = found || strings.Contains(p.String(), c.want)
				if p.File != "shop.yaml" {
					t.Errorf("no file: %s", p)
				}
			}
			if !found {
				t.Errorf("want %q, got %v", c.want, problems)
			}
		})
	}
}
