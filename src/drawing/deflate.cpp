#include "deflate.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <utility>
#include <vector>

#include "prefix_code.hpp"

namespace evenlit {
namespace {

constexpr std::size_t k_shortest = 3;  // repeat
constexpr std::size_t k_longest = 258;
constexpr std::size_t k_farthest = 32768;
constexpr int k_longest_word = 15;

// Symbols: the bytes, the end of a block, then lengths of repeats. Distances have symbols of their own.
constexpr int k_end_of_block = 256;
constexpr int k_length_symbol = 257;
constexpr int k_symbols = 286;
constexpr int k_distance_symbols = 30;

/// A byte, or a repeat where `length` is not 0.
struct Token {
  std::uint16_t length = 0;
  std::uint16_t what = 0;  // the byte, or the distance
};

std::uint64_t eight_bytes(const std::uint8_t* at) {
  std::uint64_t bytes = 0;
  std::memcpy(&bytes, at, sizeof bytes);
  return bytes;
}

std::size_t equal_bytes(const std::uint8_t* a, const std::uint8_t* b, std::size_t most) {
  std::size_t count = 0;
  for (; count + 8 <= most; count += 8) {
    const std::uint64_t difference = eight_bytes(a + count) ^ eight_bytes(b + count);
    if (difference == 0) continue;
    const bool first_is_lowest = std::endian::native == std::endian::little;
    return count + (first_is_lowest ? std::countr_zero(difference) : std::countl_zero(difference)) / 8;
  }
  while (count < most && a[count] == b[count]) ++count;
  return count;
}

/// The last place where four bytes like these began a token, as far as it is known.
class LastSeen {
 public:
  std::size_t exchange(const std::uint8_t* four_bytes, std::size_t place) {
    std::uint32_t key = 0;
    std::memcpy(&key, four_bytes, sizeof key);
    return std::exchange(places_[key * 0x9E3779B1U >> (32 - k_bits)], static_cast<std::uint32_t>(place));
  }

 private:
  static constexpr int k_bits = 12;
  std::array<std::uint32_t, 1 << k_bits> places_{};
};

std::vector<Token> tokens_of(std::span<const std::uint8_t> bytes, std::size_t begin,
                             std::span<const std::size_t> near) {
  constexpr std::size_t k_good_enough = 16;
  std::vector<Token> tokens;
  tokens.reserve((bytes.size() - begin) / 4);
  LastSeen last_seen;
  for (std::size_t at = begin; at < bytes.size();) {
    const std::size_t most = std::min(k_longest, bytes.size() - at);
    Token best{0, bytes[at]};
    const auto attempt = [&](std::size_t distance) {
      if (best.length >= k_good_enough || distance > at || distance > k_farthest) return;
      const std::size_t length = equal_bytes(&bytes[at], &bytes[at - distance], most);
      if (length < k_shortest || length <= best.length) return;
      best = {static_cast<std::uint16_t>(length), static_cast<std::uint16_t>(distance)};
    };
    for (const std::size_t distance : near) attempt(distance);
    if (most >= 4) {
      const std::size_t seen = last_seen.exchange(&bytes[at], at);
      if (seen >= 1) attempt(at - seen);
    }
    tokens.push_back(best);
    at += std::max<std::size_t>(best.length, 1);
  }
  return tokens;
}

/// A number as deflate writes lengths and distances: a symbol for its leading bits, the rest as they are.
struct Split {
  int symbol = 0;
  std::uint32_t rest = 0;
  int rest_length = 0;
};

Split split(std::size_t number, int bits_after_leading) {
  const int rest_length = std::max(0, static_cast<int>(std::bit_width(number)) - 1 - bits_after_leading);
  return {static_cast<int>(number >> rest_length) + (rest_length << bits_after_leading),
          static_cast<std::uint32_t>(number & ((std::size_t{1} << rest_length) - 1)), rest_length};
}

Split split_length(std::size_t length) {
  if (length == k_longest) return {k_symbols - 1, 0, 0};
  Split made = split(length - k_shortest, 2);
  made.symbol += k_length_symbol;
  return made;
}

Split split_distance(std::size_t distance) { return split(distance - 1, 1); }

CodeWord whole_word(const std::vector<CodeWord>& words, const Split& number) {
  const CodeWord& word = words[number.symbol];
  return {word.bits | number.rest << word.length, word.length + number.rest_length};
}

class BitWriter {
 public:
  /// @param count at most 32
  void write(std::uint32_t bits, int count) {
    pending_ |= static_cast<std::uint64_t>(bits) << pending_count_;
    pending_count_ += count;
    if (pending_count_ >= 32) flush(4);
  }

  void write(const CodeWord& word) { write(word.bits, word.length); }

  // Adds an empty stored block, whose contents begin on a whole byte.
  std::string finished() && {
    write(0, 3);
    flush((pending_count_ + 7) / 8);
    return std::move(bytes_.append("\x00\x00\xFF\xFF", 4));
  }

 private:
  void flush(int count) {
    const std::array<char, 4> low{static_cast<char>(pending_), static_cast<char>(pending_ >> 8),
                                  static_cast<char>(pending_ >> 16), static_cast<char>(pending_ >> 24)};
    bytes_.append(low.data(), count);
    pending_ >>= 8 * count;
    pending_count_ -= 8 * count;
  }

  std::string bytes_;
  std::uint64_t pending_ = 0;
  int pending_count_ = 0;
};

void write_lengths(BitWriter& writer, const std::vector<int>& symbols, const std::vector<int>& distances) {
  std::vector<int> lengths = symbols;
  lengths.insert(lengths.end(), distances.begin(), distances.end());
  std::vector<std::size_t> counts(19, 0);  // of each length; 16 to 18 would stand for runs
  for (const int length : lengths) ++counts[length];
  const std::vector<int> lengths_of_lengths = word_lengths(counts, 7);
  const std::vector<CodeWord> words = code_words(lengths_of_lengths);
  writer.write(k_symbols - 257, 5);
  writer.write(k_distance_symbols - 1, 5);
  writer.write(19 - 4, 4);
  for (const int length : {16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15}) {
    writer.write(lengths_of_lengths[length], 3);
  }
  for (const int length : lengths) writer.write(words[length]);
}

}  // namespace

std::string deflated_part(std::span<const std::uint8_t> bytes, std::size_t begin, std::span<const std::size_t> near) {
  const std::vector<Token> tokens = tokens_of(bytes, begin, near);
  std::vector<std::size_t> symbol_counts(k_symbols, 0);
  std::vector<std::size_t> distance_counts(k_distance_symbols, 0);
  std::array<std::size_t, k_longest + 1> length_counts{};
  for (const Token& token : tokens) {
    ++(token.length == 0 ? symbol_counts[token.what] : length_counts[token.length]);
    if (token.length > 0) ++distance_counts[split_distance(token.what).symbol];
  }
  for (std::size_t i = k_shortest; i <= k_longest; ++i) symbol_counts[split_length(i).symbol] += length_counts[i];
  ++symbol_counts[k_end_of_block];
  const std::vector<int> symbol_lengths = word_lengths(symbol_counts, k_longest_word);
  const std::vector<int> distance_lengths = word_lengths(distance_counts, k_longest_word);
  const std::vector<CodeWord> symbols = code_words(symbol_lengths);
  const std::vector<CodeWord> distances = code_words(distance_lengths);

  BitWriter writer;
  constexpr std::uint32_t k_own_code = 2;  // after a 0: not the last block
  writer.write(k_own_code << 1, 3);
  write_lengths(writer, symbol_lengths, distance_lengths);
  std::array<CodeWord, k_longest + 1> lengths;
  for (std::size_t i = k_shortest; i <= k_longest; ++i) lengths[i] = whole_word(symbols, split_length(i));
  for (const Token& token : tokens) {
    if (token.length == 0) {
      writer.write(symbols[token.what]);
    } else {
      writer.write(lengths[token.length]);
      writer.write(whole_word(distances, split_distance(token.what)));
    }
  }
  writer.write(symbols[k_end_of_block]);
  return std::move(writer).finished();
}

}  // namespace evenlit
