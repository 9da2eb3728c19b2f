package report

import "testing"

func TestDeck(t *testing.T) {
	words := NewWords(map[string]string{"hot": "live", "ground": "earth", "receptacle": "socket"}, "ground")
	const deck = "* a hot set\n* ground open\n* n1: receptacle hot, plug.hot, F1.1, F1.2, Switch-board.1, Switch-board.2, Rail.1, Rail.2\n" +
		"r1 ground hot 1000000000000000000000000000000000000000000000000000000000000000000000000000000\n.end\n"
	const want = "* a hot set\n* ground open\n* n1: socket live, plug.live, F1.1, F1.2, Switch-board.1, Switch-board.2,\n*   Rail.1, Rail.2\n" +
		"r1 ground hot 1000000000000000000000000000000000000000000000000000000000000000000000000000000\n.end\n"
	if got := Deck(deck, words); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
	if got := Deck(deck, Words{}); len(got) != len(deck)+4 {
		t.Error(got)
	}
}
