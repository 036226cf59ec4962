#include "prefix_code.hpp"

#include <algorithm>
#include <functional>
#include <queue>
#include <tuple>

namespace evenlit {
namespace {

// D. A. Huffman, Proceedings of the IRE 40, 1098-1101, 1952: the two rarest symbols are joined to one, again and again.
std::vector<int> huffman_lengths(const std::vector<std::size_t>& counts) {
  using Node = std::pair<std::size_t, std::size_t>;  // count, index
  std::priority_queue<Node, std::vector<Node>, std::greater<>> open;
  for (std::size_t symbol = 0; symbol < counts.size(); ++symbol) {
    if (counts[symbol] > 0) open.emplace(counts[symbol], symbol);
  }
  std::vector<std::size_t> parents(counts.size(), 0);  // nodes after the symbols; the last one is the root
  while (open.size() > 1) {
    const Node a = open.top();
    open.pop();
    const Node b = open.top();
    open.pop();
    parents[a.second] = parents[b.second] = parents.size();
    open.emplace(a.first + b.first, parents.size());
    parents.push_back(0);
  }
  std::vector<int> lengths(parents.size(), 0);
  for (std::size_t node = parents.size() - 1; node-- > 0;) {
    if (parents[node] > 0) lengths[node] = lengths[parents[node]] + 1;
  }
  lengths.resize(counts.size());
  return lengths;
}

}  // namespace

std::vector<int> word_lengths(std::vector<std::size_t> counts, int longest) {
  for (std::size_t i = 0; counts.size() - std::count(counts.begin(), counts.end(), 0) < 2; ++i) {
    counts[i] = std::max<std::size_t>(counts[i], 1);
  }
  std::vector<int> lengths = huffman_lengths(counts);
  while (*std::max_element(lengths.begin(), lengths.end()) > longest) {
    for (std::size_t& count : counts) count = (count + 1) / 2;  // more even counts make more even words
    lengths = huffman_lengths(counts);
  }
  return lengths;
}

std::vector<CodeWord> code_words(std::span<const int> lengths) {
  std::vector<CodeWord> words(lengths.size());
  const int longest = *std::max_element(lengths.begin(), lengths.end());
  std::uint32_t next = 0;
  for (int length = 1; length <= longest; ++length, next <<= 1) {
    for (std::size_t symbol = 0; symbol < lengths.size(); ++symbol) {
      if (lengths[symbol] != length) continue;
      words[symbol].length = length;
      for (int bit = 0; bit < length; ++bit) words[symbol].bits |= (next >> bit & 1) << (length - 1 - bit);
      ++next;
    }
  }
  return words;
}

}  // namespace evenlit
