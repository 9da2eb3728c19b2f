package strict

import (
	"slices"
	"strings"
)

// TextNode is a scalar. Text of more than one line becomes a block.
func TextNode(s string) *Node {
	return &Node{Kind: Text, Text: s, Block: strings.Contains(s, "\n")}
}

// MapNode is a map of the given entries, in their order.
func MapNode(entries ...Entry) *Node { return &Node{Kind: Map, Entries: entries} }

// ListNode is a list of the given items.
func ListNode(items ...*Node) *Node { return &Node{Kind: List, Items: items} }

// Pair is one entry for MapNode.
func Pair(key string, value *Node) Entry { return Entry{Key: key, Value: value} }

// Clone is a copy that shares nothing with n but Data, which is never altered.
func (n *Node) Clone() *Node {
	if n == nil {
		return nil
	}
	c := *n
	c.Entries = slices.Clone(n.Entries)
	for i := range c.Entries {
		c.Entries[i].Value = c.Entries[i].Value.Clone()
	}
	c.Items = slices.Clone(n.Items)
	for i := range c.Items {
		c.Items[i] = c.Items[i].Clone()
	}
	return &c
}

// Set puts value under key: in place where the key stands, else at the end.
// On a nil node or one that is no map it does nothing.
func (n *Node) Set(key string, value *Node) {
	if n == nil || n.Kind != Map {
		return
	}
	for i := range n.Entries {
		if n.Entries[i].Key == key {
			n.Entries[i].Value = value
			return
		}
	}
	n.Entries = append(n.Entries, Pair(key, value))
}

// Delete takes key away and tells whether it stood there.
func (n *Node) Delete(key string) bool {
	if n == nil {
		return false
	}
	before := len(n.Entries)
	n.Entries = slices.DeleteFunc(n.Entries, func(e Entry) bool { return e.Key == key })
	return len(n.Entries) < before
}

// Same tells whether two trees hold the same keys, texts and lists in the
// same order; places, quotes and Data do not count.
func (n *Node) Same(o *Node) bool {
	if n == nil || o == nil {
		return n == o
	}
	return n.Kind == o.Kind && n.Text == o.Text && n.Block == o.Block &&
		slices.EqualFunc(n.Entries, o.Entries, func(a, b Entry) bool { return a.Key == b.Key && a.Value.Same(b.Value) }) &&
		slices.EqualFunc(n.Items, o.Items, (*Node).Same)
}
