package strict

import (
	"encoding/binary"
)

// Pack writes a tree that Check has found right in a form that Unpack reads in
// a small part of the time of its YAML. What a Shape's Parse made of a text is
// left out.
func Pack(n *Node) []byte { return pack(nil, n) }

// A packed node is its kind and marks, its place, and then its text, its entries
// or its items, each with its length or number before it.
const (
	packedPlain = 1 << (iota + 4)
	packedBlock
	packedRefused
)

func pack(out []byte, n *Node) []byte {
	head := byte(n.Kind)
	mark := func(is bool, as byte) {
		if is {
			head |= as
		}
	}
	mark(n.Plain, packedPlain)
	mark(n.Block, packedBlock)
	mark(n.Refused, packedRefused)
	out = packPos(append(out, head), n.Pos)
	switch n.Kind {
	case Map:
		out = binary.AppendUvarint(out, uint64(len(n.Entries)))
		for _, e := range n.Entries {
			out = pack(packPos(packText(out, e.Key), e.KeyPos), e.Value)
		}
	case List:
		out = binary.AppendUvarint(out, uint64(len(n.Items)))
		for _, item := range n.Items {
			out = pack(out, item)
		}
	default:
		out = packText(out, n.Text)
	}
	return out
}

func packPos(out []byte, p Pos) []byte {
	return binary.AppendUvarint(binary.AppendUvarint(out, uint64(p.Line)), uint64(p.Column))
}

func packText(out []byte, text string) []byte {
	return append(binary.AppendUvarint(out, uint64(len(text))), text...)
}

// Unpack reads what Pack wrote. Anything else is not taken: ok is false then.
func Unpack(packed string) (root *Node, ok bool) {
	defer func() {
		if recover() != nil { // a length that leads out of the text
			root, ok = nil, false
		}
	}()
	u := unpacker{rest: packed}
	root = u.node(0)
	return root, u.rest == ""
}

type unpacker struct {
	rest string
	room []Node // made at once, as there are many
}

func (u *unpacker) node(depth int) *Node {
	if depth > MaxDepth {
		panic("nested too deep")
	}
	if len(u.room) == 0 {
		u.room = make([]Node, 256)
	}
	n := &u.room[0]
	u.room = u.room[1:]
	head := u.rest[0]
	u.rest = u.rest[1:]
	n.Kind, n.Plain, n.Block, n.Refused = Kind(head&(packedPlain-1)), head&packedPlain != 0, head&packedBlock != 0, head&packedRefused != 0
	n.Pos = u.pos()
	switch n.Kind {
	case Map:
		if some := u.some(); some > 0 {
			n.Entries = make([]Entry, some)
		}
		for i := range n.Entries {
			n.Entries[i] = Entry{u.text(), u.pos(), u.node(depth + 1)}
		}
	case List:
		if some := u.some(); some > 0 {
			n.Items = make([]*Node, some)
		}
		for i := range n.Items {
			n.Items[i] = u.node(depth + 1)
		}
	default:
		n.Text = u.text()
	}
	return n
}

// some is a number of entries or items, each of which takes a byte at least.
func (u *unpacker) some() int {
	n := u.number()
	if n > len(u.rest) {
		panic("more than there is")
	}
	return n
}

func (u *unpacker) number() int {
	n, shift := 0, 0
	for i := 0; ; i++ {
		b := u.rest[i]
		n |= int(b&0x7f) << shift
		if shift += 7; b < 0x80 {
			u.rest = u.rest[i+1:]
			return n
		}
		if shift > 28 {
			panic("no number of a tree")
		}
	}
}

func (u *unpacker) pos() Pos { return Pos{Line: u.number(), Column: u.number()} }

func (u *unpacker) text() string {
	n := u.number()
	text := u.rest[:n]
	u.rest = u.rest[n:]
	return text
}
