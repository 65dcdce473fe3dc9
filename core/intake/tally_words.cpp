#include "core/intake/tally_words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "core/base/number.h"

namespace core::intake {
namespace {

constexpr std::string_view kDigits = "0123456789";
constexpr std::string_view kBetween = " #._-:,;/()";
constexpr std::size_t kMostDigits = 3;  // more is a year or a count

/// Letters, digits and signs only, the better word first; English, then German.
struct RoleWords {
    TallyRole role;
    std::vector<std::string_view> words;
};

const std::vector<RoleWords>& knownWords() {
    static const std::vector<RoleWords> kKnown{
        {TallyRole::Implement,
         {"implement", "racket", "racquet", "bat", "paddle", "club", "rubber", "face", "strings",
          "string", "setup", "name", "gerät", "schläger", "belag", "besaitung", "saite"}},
        {TallyRole::Condition, {"condition", "state", "zustand"}},
        {TallyRole::Hitter, {"hitter", "player", "who", "spieler", "spielerin", "wer"}},
        {TallyRole::Shot,
         {"shot", "shots", "shotno", "shotnumber", "no", "nr", "schlag", "schläge", "schlagnr"}},
        {TallyRole::Frames,
         {"frames", "framecount", "counts", "count", "bilder", "bildzahl", "bildzählung",
          "zählung"}},
        {TallyRole::FramesPerTurn,
         {"framesperturn", "frames/turn", "framesperrevolution", "frames/revolution",
          "bilderjeumdrehung", "bilderproumdrehung", "bilder/umdrehung"}},
        {TallyRole::StartFrame, {"startframe", "start", "firstframe", "startbild", "erstesbild"}},
        {TallyRole::ReturnFrame,
         {"returnframe", "return", "endframe", "end", "lastframe", "wiederkehrbild", "wiederkehr",
          "endbild", "ende", "letztesbild"}},
        {TallyRole::Turns, {"turns", "revolutions", "umdrehungen"}},
        {TallyRole::CaptureRate,
         {"capturerate", "capturefps", "fps", "framerate", "framespersecond", "rate",
          "aufnahmerate", "bildrate", "bilderjesekunde", "bilderprosekunde"}},
        {TallyRole::LeaveOut,
         {"mean",   "average",  "avg",     "median",   "sd",         "min",          "max",
          "sum",    "total",    "rpm",     "spin",     "spinrate",   "note",         "notes",
          "remark", "remarks",  "comment", "comments", "date",       "day",          "time",
          "clip",   "video",    "file",    "mittel",   "mittelwert", "durchschnitt", "summe",
          "u/min",  "drehzahl", "drall",   "notiz",    "notizen",    "bemerkung",    "datum",
          "zeit",   "datei"}}};
    return kKnown;
}

std::string bareWord(std::string_view header) {
    std::string bare;
    for (const char c : header) {
        if (std::string_view{" _-.\t\r\n"}.find(c) == std::string_view::npos) {
            bare += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        }
    }
    return bare;
}

struct KnownWord {
    TallyRole role;
    std::size_t rank;
};

std::optional<KnownWord> knownWord(std::string_view header) {
    const std::string bare = bareWord(header);
    for (const RoleWords& known : knownWords()) {
        const auto found = std::find(known.words.begin(), known.words.end(), bare);
        if (found != known.words.end()) {
            return KnownWord{known.role, static_cast<std::size_t>(found - known.words.begin())};
        }
    }
    return std::nullopt;
}

std::string_view withoutSignsAtEnd(std::string_view text) {
    const auto last = text.find_last_not_of(kBetween);
    return last == std::string_view::npos ? std::string_view{} : text.substr(0, last + 1);
}

/// With a number behind it: a shot and nobody's name.
bool isShotWord(std::string_view word) {
    constexpr std::array<std::string_view, 8> kWords{"hit",  "swing", "strike", "stroke",
                                                     "ball", "trial", "try",    "frame"};
    const auto role = roleOfHeader(word);
    return role == TallyRole::Shot || (role && isCount(*role)) ||
           std::find(kWords.begin(), kWords.end(), bareWord(word)) != kWords.end();
}

/// "Anna" of "Anna, shot no."; nothing of "Shot no.".
std::string groupIn(std::string_view stem) {
    stem = withoutSignsAtEnd(stem);
    while (!stem.empty()) {
        const std::size_t word = stem.find_last_of(kBetween) + 1;  // npos + 1 is 0
        if (!isShotWord(stem) && !isShotWord(stem.substr(word))) {
            break;
        }
        stem = isShotWord(stem) ? std::string_view{} : withoutSignsAtEnd(stem.substr(0, word));
    }
    return std::string{stem};
}

}  // namespace

std::optional<ShotHeader> shotHeader(std::string_view header) {
    header = withoutSignsAtEnd(header);
    const auto last = header.find_last_not_of(kDigits);
    const std::size_t begin = last == std::string_view::npos ? 0 : last + 1;
    const std::string_view digits = header.substr(begin);
    if (digits.empty() || digits.size() > kMostDigits) {
        return std::nullopt;
    }
    ShotHeader shot{groupIn(header.substr(0, begin)), 0};
    std::from_chars(digits.data(), digits.data() + digits.size(), shot.number);
    return shot;
}

std::optional<TallyRole> roleOfHeader(std::string_view header) {
    const auto known = knownWord(header);
    return known ? std::optional{known->role} : std::nullopt;
}

std::size_t rankOfHeader(std::string_view header) {
    const auto known = knownWord(header);
    return known ? known->rank : 0;
}

bool isNumber(std::string_view field) {
    const auto read = numberFrom(field);
    return read || read.error().code == ErrorCode::Contradiction;
}

}  // namespace core::intake
