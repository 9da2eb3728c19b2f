// Package rules says what must be so: it reads the rulebook, holds every rule
// against the figures of a set, and gives findings, a verdict, the cautions
// that fit and the needs that would settle what is open. It knows no circuit
// and no sheet; what it may ask of a set is in [figure.Setting] and the
// figures, nothing else. Wording for a person, colours and files are left to
// the commands.
//
// # The rulebook
//
// A rulebook is the *.yaml files of one folder; ours is [Default]. A file
// holds `rules:` (a map from rule name to rule) or `cautions:`, `owed:` and
// `deferral:` (see [Caution]). A rule fits on a screen:
//
//	rules:
//	  bond-resistance:
//	    group: readings          # entry ratings readings inspection high-tension faults firstpower
//	    of: [chassis, body]      # subject kinds: one finding for each subject of them
//	    risk: shock              # shock fire set advice
//	    stages: [heaters, rail]  # the stages that ask it; left out: all
//	    when: {bonded: yes, mains: 200 V to 260 V, role: [chassis, accessible]}
//	    asked_if: has-ground     # a present-or-absent figure of the same subject: absent, and the rule is
//	                             # not asked; not known, and it is unproven where it would fail
//	    gather: part             # cautions of one cause are one finding: of the part, or of the set
//	    asks: The ground pin reaches the chassis in next to no ohms.
//	    clauses:
//	      - figure: bond-beyond-cord
//	        must: {at_most: 0.1 Ω}
//	        should: {at_most: 0.05 Ω}
//	      - figure: bond-made
//	        must: present
//	        says: {present: the bond is made, absent: 'nothing joins the ground pin to {subject}'}
//	        when: {kind: chassis}
//	        limits:
//	          - {when: {plug-ground: absent}, should: present}
//	    why: …
//	    remedy: …
//	    basis:
//	      - {status: published, source: …}    # published from-memory common-practice computed shop
//	    example: {sheet: …, of: …, sound: {}, unsound: {change: …}, edges: …}   # see Example
//
// Demands. A `must` is required: beyond it is a failure, not known or astride
// unproven. In its place an `if-read` stands for a reading that nobody owes: not
// taken, it is a caution; taken, it is judged as a must, and one that proves
// nothing is unproven. Only figures with figure.Def.Reading may have one: no
// key, mark or answer is ever left to silence. A `should` is never more than a
// caution, beyond or not known. Each is `present`, `absent`, or one of {at_most:
// Q}, {at_least: Q}, {between: Q to Q}; Q has the unit of the figure and may have
// a sign. Bounds are inclusive. A should lies inside its must or if-read. Free texts (asks,
// why, remedy, source, says, examples) may be blocks (`>-`, `|`).
//
// `says` words the finding: of a number one text that stands before the value,
// of a present-or-absent figure {present: …, absent: …}. {subject} in it is the
// subject's name; a text without it gets the name in front (not for set). Left
// out, the figure's own sentence serves. A number that is what is left of a limit may have
// {left: …, over: …}: over, with the amount after it, where less than nothing is left.
//
// Facts. `when` names facts of figure.FactNames, all of which must hold: a word
// or a list of words, and for plug-fuse, branch-device, mains and frequency a
// span (or a list), inside which the set's own range must lie; the word none
// stands for a fuse or device that is certainly not there. See [FactWords] for
// the closed lists. kind, role and reach are the subject's. A fact that is not
// known, a word outside its list, and a range partly inside hold both ways: the
// rule, the clause, the limit applies, and of several limits every one.
//
// Limits. An entry of `limits` stands in place of the clause's must, if-read and
// should (all: what it does not name is not asked) where its `when` holds. The first
// entry that certainly holds ends the search; those before it that may hold
// bind as well; with none certain the clause's own bind too.
//
// `when` and `limits` may stand on the rule or on a clause: a clause's when adds
// to the rule's, its limits replace the rule's.
// A clause may have its own `risk`, `basis`, `why` and `remedy`: they stand in place of
// the rule's where that clause decides, `unproven` in place of the remedy where the
// finding is unproven, and of clauses that come to the same
// outcome the first decides. Its own `asked_if` adds to the rule's. Clauses without must, if-read, should or limits
// are refused. All clauses of a rule must hold; an alternative belongs into the
// figure. A rule of risk advice has should only.
//
// # A shop's rulebook
//
// [LoadShop] reads one file with `rules:`. A new name is a whole rule; a name
// of the book takes `clauses` and `basis` (and why, remedy, when, limits
// for those clauses). Their status is always shop. All must hold, so a
// shop can only be stricter; its rules never make a group count as judged.
package rules
