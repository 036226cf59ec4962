#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace evenlit {

/// The bits that stand for a symbol, the first of them lowest.
struct CodeWord {
  std::uint32_t bits = 0;
  int length = 0;  ///< 0 for a symbol without a word
};

/// Word lengths of the shortest prefix code for symbols that occur so often: Huffman's, where none of its words is too
/// long; near it otherwise. A symbol that does not occur gets no word, but two symbols at least get one.
///
/// @param counts  one a symbol, at least two symbols, fewer than 2^longest
std::vector<int> word_lengths(std::vector<std::size_t> counts, int longest);

/// The words that go with lengths: shorter ones first, then in the order of the symbols.
///
/// @source RFC 1951 (1996), 3.2.2
std::vector<CodeWord> code_words(std::span<const int> lengths);

}  // namespace evenlit
