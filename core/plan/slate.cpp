#include "core/plan/slate.h"

#include <charconv>

#include "core/base/text_table.h"
#include "core/base/words.h"

namespace core::plan {
namespace {

constexpr std::string_view kSlateTitle = "Turnmark slate ";
constexpr int kSlateVersion = 1;
constexpr std::string_view kSlateSpace = " \t\r\n\f\v";

/// On one line, with single spaces.
std::string onOneLine(std::string_view text) {
    std::string line;
    for (const char c : withoutOuterSpace(text)) {
        const bool isSpace = kSlateSpace.find(c) != std::string_view::npos;
        if (!isSpace) {
            line += c;
        } else if (line.back() != ' ') {
            line += ' ';
        }
    }
    return line;
}

void addLine(std::string& text, std::string_view key, std::string_view value) {
    const std::string line = onOneLine(value);
    if (!line.empty()) {
        text.append(key).append(": ").append(line).append("\n");
    }
}

std::string_view takeLine(std::string_view& text) {
    const auto end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    return withoutOuterSpace(line);
}

Result<void> checkTitle(std::string_view title) {
    if (!title.starts_with(kSlateTitle)) {
        return fail(ErrorCode::ForeignFile, said("This code is no slate card."));
    }
    title.remove_prefix(kSlateTitle.size());
    int version = 0;
    const auto [end, problem] = std::from_chars(title.data(), title.data() + title.size(), version);
    if (problem != std::errc{} || end != title.data() + title.size() || version < 1) {
        return fail(ErrorCode::ForeignFile, said("This code is no slate card."));
    }
    if (version > kSlateVersion) {
        return fail(ErrorCode::NewerVersion,
                    said("This slate card was printed by a newer version of the program. Print it "
                         "again, or install the newer version."));
    }
    return ok();
}

}  // namespace

std::string slateText(const SlateCard& card) {
    std::string text{kSlateTitle};
    text += std::to_string(kSlateVersion) + "\n";
    addLine(text, "session", card.session);
    addLine(text, "implement", card.implement);
    addLine(text, "condition", card.condition);
    addLine(text, "hitter", card.hitter);
    return text;
}

Result<SlateCard> slateFromText(std::string_view text) {
    BOOST_OUTCOME_TRY(checkTitle(takeLine(text)));
    if (!isUtf8Text(text)) {
        return fail(ErrorCode::InvalidInput, said("The words of the slate card are not UTF-8."));
    }
    SlateCard card;
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        const auto colon = line.find(':');
        if (colon == std::string_view::npos) {
            continue;
        }
        const std::string_view key = line.substr(0, colon);
        const std::string value = onOneLine(line.substr(colon + 1));
        if (key == "session") {
            card.session = value;
        } else if (key == "implement") {
            card.implement = value;
        } else if (key == "condition") {
            card.condition = value;
        } else if (key == "hitter") {
            card.hitter = value;
        }
    }
    if (card.implement.empty() || card.hitter.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The slate card names no implement or no hitter."));
    }
    return card;
}

std::vector<SlateCard> slateCards(const Plan& plan) {
    std::vector<SlateCard> cards;
    for (const auto& hitter : plan.hitters) {
        for (const auto& implement : plan.implements) {
            cards.push_back({plan.session, implement.name, implement.condition, hitter});
        }
    }
    return cards;
}

}  // namespace core::plan
