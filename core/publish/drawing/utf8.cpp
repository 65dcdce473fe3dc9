#include "core/publish/drawing/utf8.h"

#include <cstddef>
#include <cstdint>

namespace core::publish {
namespace {

constexpr char32_t kReplacement = 0xFFFD;

/// How many bytes follow a leading byte, and the bits it carries; -1 for no leading byte.
int followersOf(unsigned char lead, char32_t& bits) {
    if (lead < 0x80U) {
        bits = lead;
        return 0;
    }
    if (lead >= 0xC2U && lead <= 0xDFU) {
        bits = lead & 0x1FU;
        return 1;
    }
    if (lead >= 0xE0U && lead <= 0xEFU) {
        bits = lead & 0x0FU;
        return 2;
    }
    if (lead >= 0xF0U && lead <= 0xF4U) {
        bits = lead & 0x07U;
        return 3;
    }
    return -1;
}

bool isLetter(char32_t letter, int followers) {
    constexpr char32_t kSmallest[] = {0, 0x80, 0x800, 0x10000};
    return letter >= kSmallest[followers] && letter <= 0x10FFFF &&
           (letter < 0xD800 || letter > 0xDFFF);
}

bool turnsDirection(char32_t letter) {
    return (letter >= 0x202A && letter <= 0x202E) || (letter >= 0x2066 && letter <= 0x2069);
}

bool isControl(char32_t letter) {
    return letter < 0x20 || (letter >= 0x7F && letter < 0xA0) || letter == 0x2028 ||
           letter == 0x2029;
}

std::string cleaned(std::string_view text, bool keepsLines) {
    std::string clean;
    bool wasControl = false;
    for (char32_t letter : lettersOf(text)) {
        if (turnsDirection(letter)) {
            continue;
        }
        if (letter == 0xFFFE || letter == 0xFFFF) {
            letter = kReplacement;
        }
        if (keepsLines && letter == U'\n') {
            clean += '\n';
            wasControl = true;
        } else if (isControl(letter)) {
            if (!wasControl) {
                clean += ' ';
            }
            wasControl = true;
        } else {
            appendUtf8(clean, letter);
            wasControl = false;
        }
    }
    return clean;
}

}  // namespace

std::u32string lettersOf(std::string_view text) {
    std::u32string letters;
    for (std::size_t at = 0; at < text.size();) {
        char32_t letter = 0;
        const int followers = followersOf(static_cast<unsigned char>(text[at]), letter);
        ++at;
        int read = 0;
        while (read < followers && at < text.size() &&
               (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) {
            letter = (letter << 6U) | (static_cast<unsigned char>(text[at]) & 0x3FU);
            ++at;
            ++read;
        }
        const bool isWhole = followers >= 0 && read == followers && isLetter(letter, followers);
        letters += isWhole ? letter : kReplacement;
    }
    return letters;
}

void appendUtf8(std::string& text, char32_t letter) {
    const auto add = [&text](char32_t byte) { text += static_cast<char>(byte); };
    if (letter < 0x80) {
        add(letter);
    } else if (letter < 0x800) {
        add(0xC0U | (letter >> 6U));
        add(0x80U | (letter & 0x3FU));
    } else if (letter < 0x10000) {
        add(0xE0U | (letter >> 12U));
        add(0x80U | ((letter >> 6U) & 0x3FU));
        add(0x80U | (letter & 0x3FU));
    } else {
        add(0xF0U | (letter >> 18U));
        add(0x80U | ((letter >> 12U) & 0x3FU));
        add(0x80U | ((letter >> 6U) & 0x3FU));
        add(0x80U | (letter & 0x3FU));
    }
}

std::string singleLine(std::string_view text) {
    return cleaned(text, false);
}

std::string plainText(std::string_view text) {
    return cleaned(text, true);
}

std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : plainText(text)) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += c;
        }
    }
    return out;
}

}  // namespace core::publish
