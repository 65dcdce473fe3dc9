#include <cmath>

#include "core/base/number.h"
#include "core/intake/tallies.h"

/// From the rows of a spreadsheet to counted shots.
namespace core::intake {
namespace {

constexpr double kWholeFrames = 1e-6;  // 4.8 frames per turn times 5 turns, as decimals round
constexpr double kLeastFramesPerTurn = 2.0;

/// Names by which a column is recognised, letters, digits and signs only.
struct Names {
    TallyColumn column;
    std::vector<std::string_view> names;
};

const std::vector<Names>& knownNames() {
    static const std::vector<Names> kNames{
        {TallyColumn::Implement, {"implement", "racket", "racquet", "bat", "club", "face", "name"}},
        {TallyColumn::Condition, {"condition", "state"}},
        {TallyColumn::Hitter, {"hitter", "player", "who"}},
        {TallyColumn::Shot, {"shot", "shotno", "shotnumber", "no", "nr"}},
        {TallyColumn::FramesPerTurn,
         {"framesperturn", "frames/turn", "framesperrevolution", "frames", "framecount", "count"}},
        {TallyColumn::StartFrame, {"startframe", "start", "firstframe"}},
        {TallyColumn::ReturnFrame, {"returnframe", "return", "endframe", "end", "lastframe"}},
        {TallyColumn::Turns, {"turns", "revolutions"}},
        {TallyColumn::CaptureRate,
         {"capturerate", "capturefps", "fps", "framerate", "framespersecond", "rate"}}};
    return kNames;
}

std::string bareName(std::string_view name) {
    std::string bare;
    for (const char c : name) {
        if (c != ' ' && c != '_' && c != '-' && c != '.') {
            bare += static_cast<char>(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
        }
    }
    return bare;
}

/// Takes the fields of one row; what is wrong first is told.
class RowFields {
public:
    RowFields(const TextRow& row, const TallyMapping& mapping) : m_row{row}, m_mapping{mapping} {}

    [[nodiscard]] bool has(TallyColumn column) const {
        const auto at = m_mapping.of(column);
        return at && !m_row.fields[*at].empty();
    }
    [[nodiscard]] std::string text(TallyColumn column) const {
        const auto at = m_mapping.of(column);
        return at ? m_row.fields[*at] : std::string{};
    }
    std::string needed(TallyColumn column) {
        if (!has(column)) {
            reject(column, "the " + std::string{tallyColumnName(column)} + " is missing.");
        }
        return text(column);
    }
    double number(TallyColumn column, double low, double high) {
        const std::string field = needed(column);
        const auto value = numberFrom(field);
        if (!value) {
            reject(column, value.error().message);
        } else if (value.value() < low || value.value() > high) {
            reject(column, field + " cannot be the " + std::string{tallyColumnName(column)} + ".");
        }
        return value ? value.value() : low;
    }
    std::int64_t whole(TallyColumn column, double low, double high) {
        const double value = number(column, low, high);
        if (value != std::floor(value)) {
            reject(column, text(column) + " is not a whole number.");
        }
        return static_cast<std::int64_t>(value);
    }
    void reject(TallyColumn column, const std::string& what) {
        if (m_fault.empty()) {
            const auto at = m_mapping.of(column);
            m_fault = "Row " + std::to_string(m_row.number) +
                      (at ? ", column " + columnLetters(*at) : std::string{}) + ": " + what;
        }
    }
    [[nodiscard]] const std::string& fault() const { return m_fault; }

private:
    const TextRow& m_row;
    const TallyMapping& m_mapping;
    std::string m_fault;
};

std::int64_t countedFrames(RowFields& fields, int turns) {
    constexpr auto kMost = static_cast<double>(kMostTallyFrames);
    if (!fields.has(TallyColumn::FramesPerTurn) && fields.has(TallyColumn::StartFrame)) {
        const auto start = fields.whole(TallyColumn::StartFrame, 0.0, 1e12);
        const auto back = fields.whole(TallyColumn::ReturnFrame, 0.0, 1e12);
        if (back <= start || back - start > kMostTallyFrames) {
            fields.reject(TallyColumn::ReturnFrame,
                          "the return is not after the start, or very far from it.");
        }
        return back - start;
    }
    const double frames = fields.number(TallyColumn::FramesPerTurn, 1.0, kMost) * turns;
    if (std::abs(frames - std::round(frames)) > kWholeFrames * std::max(1.0, frames)) {
        fields.reject(TallyColumn::FramesPerTurn,
                      fields.text(TallyColumn::FramesPerTurn) + " frames per turn over " +
                          counted(turns, "turn") +
                          " is no whole number of frames. Give the number of turns that were "
                          "counted over.");
    }
    return std::llround(frames);
}

TallyShot shotIn(RowFields& fields, const std::optional<timebase::CaptureRate>& rate,
                 int symmetryOrder) {
    TallyShot shot;
    shot.implement = fields.needed(TallyColumn::Implement);
    shot.condition = fields.text(TallyColumn::Condition);
    shot.hitter = fields.needed(TallyColumn::Hitter);
    shot.shot = fields.text(TallyColumn::Shot);
    if (fields.has(TallyColumn::Turns)) {
        shot.turns = static_cast<int>(fields.whole(TallyColumn::Turns, 1.0, kMostTallyTurns));
    }
    shot.frames = countedFrames(fields, shot.turns);
    if (static_cast<double>(shot.frames) < kLeastFramesPerTurn * shot.turns * symmetryOrder) {
        fields.reject(fields.has(TallyColumn::FramesPerTurn) ? TallyColumn::FramesPerTurn
                                                             : TallyColumn::ReturnFrame,
                      "fewer than two frames until the ball looks alike: the rate cannot be told "
                      "from another one.");
    }
    if (fields.has(TallyColumn::CaptureRate) || !rate) {
        const auto stated =
            timebase::captureRateFromDecimal(fields.number(TallyColumn::CaptureRate, 1.0, 1e6));
        if (stated) {
            shot.rate = stated.value();
        }
    } else {
        shot.rate = *rate;
    }
    return shot;
}

Result<void> checkMapping(const TextTable& table, const TallyMapping& mapping,
                          const std::optional<timebase::CaptureRate>& rate) {
    for (const auto& position : mapping.columns) {
        if (position && *position >= table.columns.size()) {
            return fail(ErrorCode::InvalidInput,
                        "The table has no column " + columnLetters(*position) + ".");
        }
    }
    for (const TallyColumn column : {TallyColumn::Implement, TallyColumn::Hitter}) {
        if (!mapping.of(column)) {
            return fail(ErrorCode::InvalidInput, "No column is known to hold the " +
                                                     std::string{tallyColumnName(column)} +
                                                     ". Say which one does.");
        }
    }
    const bool hasEnds =
        mapping.of(TallyColumn::StartFrame) && mapping.of(TallyColumn::ReturnFrame);
    if (!mapping.of(TallyColumn::FramesPerTurn) && !hasEnds) {
        return fail(ErrorCode::InvalidInput,
                    "No column is known to hold the counts. Say which one holds the frames per "
                    "turn, or which two hold the start frame and the return frame.");
    }
    if (!rate && !mapping.of(TallyColumn::CaptureRate)) {
        return fail(ErrorCode::InvalidInput,
                    "Nothing says how many frames per second the camera took. Give the capture "
                    "rate, or say which column holds it.");
    }
    return ok();
}

}  // namespace

std::string_view tallyColumnName(TallyColumn column) noexcept {
    constexpr std::array<std::string_view, kTallyColumns> kColumnNames{
        "implement",   "condition",    "hitter", "shot",        "frames per turn",
        "start frame", "return frame", "turns",  "capture rate"};
    return kColumnNames[static_cast<std::size_t>(column)];
}

TallyMapping proposeMapping(const TextTable& table) {
    TallyMapping mapping;
    for (const Names& known : knownNames()) {
        for (const std::string_view name : known.names) {  // the first name goes before the others
            for (std::size_t i = 0; i < table.columns.size(); ++i) {
                if (!mapping.of(known.column) && bareName(table.columns[i]) == name) {
                    mapping.set(known.column, i);
                }
            }
        }
    }
    return mapping;
}

Result<Tally> readTally(const TextTable& table, const TallyMapping& mapping,
                        std::optional<timebase::CaptureRate> rate, plan::BallMarking marking) {
    BOOST_OUTCOME_TRY(checkMapping(table, mapping, rate));
    Tally tally;
    for (const TextRow& row : table.rows) {
        RowFields fields{row, mapping};
        TallyShot shot = shotIn(fields, rate, plan::symmetryOrder(marking));
        shot.row = row.number;
        if (fields.fault().empty()) {
            tally.shots.push_back(std::move(shot));
        } else {
            tally.faults.push_back({row.number, fields.fault()});
        }
    }
    return tally;
}

}  // namespace core::intake
