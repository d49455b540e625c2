package pack

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// branch is a part of a tree while it grows: a symbol as it stands in tree, or two
// branches.
type branch struct {
	weight int
	sign   rune
	kids   [2]*branch
}

// join brings the two lightest branches together until one is left (Huffman, "A method
// for the construction of minimum-redundancy codes", 1952).
func join(list []*branch) *branch {
	for len(list) > 1 {
		i, j := lightest(list)
		list[min(i, j)] = &branch{weight: list[i].weight + list[j].weight, kids: [2]*branch{list[i], list[j]}}
		list = append(list[:max(i, j)], list[max(i, j)+1:]...)
	}
	return list[0]
}

// lightest gives the places of the lightest branch and of the next.
func lightest(list []*branch) (i, j int) {
	i, j = 0, 1
	if list[1].weight < list[0].weight {
		i, j = 1, 0
	}
	for k := 2; k < len(list); k++ {
		switch {
		case list[k].weight < list[i].weight:
			i, j = k, i
		case list[k].weight < list[j].weight:
			j = k
		}
	}
	return i, j
}

func (b *branch) String() string {
	if b.kids[0] == nil {
		return string(b.sign)
	}
	return string(nodeSign) + b.kids[0].String() + b.kids[1].String()
}

// counted is how often each symbol comes in the corpus.
func counted() map[rune]int {
	counts := map[rune]int{}
	for _, l := range readCorpus() {
		counts['|']++
		for _, r := range l.text {
			if small := strings.ToLower(string(r)); small != string(r) {
				counts['^']++
				r = []rune(small)[0]
			}
			counts[r]++
		}
	}
	return counts
}

// The tree is Huffman's for the corpus, with letters, digits and other characters each
// under a node of their own.
func TestTheTreeFitsTheCorpus(t *testing.T) {
	const letters = "abcdefghijklmnopqrstuvwxyzáéíóúüñàèçöäêâôîëïøåãõ"
	const others = "~.,'-/&()#:;?!\"+@%$*=_¿¡°’–…€<>[]ªº½ß"
	counts := counted()
	var top []*branch
	for _, group := range []string{"|", "^", " ", letters, "0123456789", others} {
		var list []*branch
		for _, r := range group {
			list = append(list, &branch{weight: 8*counts[r] + 1, sign: r})
			delete(counts, r)
		}
		top = append(top, join(list))
	}
	require.Empty(t, counts, "every character of the corpus has a symbol")
	require.Equal(t, join(top).String(), tree)
}

func TestFold(t *testing.T) {
	a := newAlphabet()
	for capital, small := range map[rune]rune{'A': 'a', 'Z': 'z', 'Ñ': 'ñ', 'É': 'é', 'Ü': 'ü'} {
		s, up := a.fold(capital)
		same, down := a.fold(small)
		require.True(t, up)
		require.False(t, down)
		require.Equal(t, same, s)
		require.Equal(t, small, a.runes[s])
	}
	for _, r := range "×÷ßÐÞ{|~^ĀЯ日\x00" {
		_, up := a.fold(r)
		require.False(t, up, string(r))
	}
}
