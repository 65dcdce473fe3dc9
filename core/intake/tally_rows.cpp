#include <cmath>

#include "core/base/number.h"
#include "core/base/words.h"
#include "core/intake/tally_checks.h"

/// From the rows of a table to counted shots.
namespace core::intake {
namespace {

constexpr double kWholeFrames = 1e-6;  // 4.8 frames per turn times 5 turns, as decimals round
constexpr double kLeastFramesPerTurn = 2.0;

std::string placeIn(std::size_t row, std::optional<std::size_t> column) {
    return column ? said("Row {}, column {}: ", row, columnLetters(*column))
                  : said("Row {}: ", row);
}

/// The columns of a layout by what they hold.
struct Columns {
    std::map<TallyRole, std::size_t> single;
    std::vector<std::size_t> counts;
    std::vector<std::size_t> attributes;

    [[nodiscard]] std::optional<std::size_t> of(TallyRole role) const {
        const auto found = single.find(role);
        return found == single.end() ? std::nullopt : std::optional{found->second};
    }
};

/// Errors: InvalidInput for a role that two columns have.
Result<Columns> columnsOf(const TallyLayout& layout) {
    Columns columns;
    for (std::size_t i = 0; i < layout.size(); ++i) {
        const TallyRole role = layout[i].role;
        if (isCount(role)) {
            columns.counts.push_back(i);
        } else if (role == TallyRole::Attribute) {
            columns.attributes.push_back(i);
        } else if (role != TallyRole::LeaveOut) {
            const auto [known, isNew] = columns.single.try_emplace(role, i);
            if (!isNew) {
                return fail(ErrorCode::InvalidInput,
                            said("The columns {} and {} are both said to hold the {}. "
                                 "Choose one of them.",
                                 columnLetters(known->second), columnLetters(i), roleWords(role)));
            }
        }
    }
    return columns;
}

Result<void> checkCounts(const TallyLayout& layout, const Columns& columns) {
    const bool hasStart = columns.of(TallyRole::StartFrame).has_value();
    const bool hasReturn = columns.of(TallyRole::ReturnFrame).has_value();
    if (columns.counts.empty() && !(hasStart && hasReturn)) {
        return fail(
            ErrorCode::InvalidInput,
            said("No column is known to hold the counts. Say which one holds the frames, or "
                 "which two hold the start frame and the return frame."));
    }
    if (!columns.counts.empty() && (hasStart || hasReturn)) {
        return fail(
            ErrorCode::InvalidInput,
            said("Some columns are said to hold counts, others the start frame or the return "
                 "frame. Leave one or the other out."));
    }
    for (const std::size_t column : columns.counts) {
        if (layout[column].role != layout[columns.counts.front()].role) {
            return fail(
                ErrorCode::InvalidInput,
                said("One column is said to hold frames, another one frames per turn. Choose "
                     "one of the two for all counts."));
        }
    }
    return ok();
}

Result<Columns> checkedColumns(const TallySheet& sheet, const TallyLayout& layout,
                               const TallySource& source) {
    if (layout.size() != sheet.headers.size()) {
        return fail(ErrorCode::InvalidInput, said("The table has other columns than was said."));
    }
    BOOST_OUTCOME_TRY(columns, columnsOf(layout));
    const auto missing = [](TallyRole role, const std::string& remedy) {
        return fail(ErrorCode::InvalidInput,
                    said("No column is known to hold the {}. {}", roleWords(role), remedy));
    };
    if (!columns.of(TallyRole::Implement)) {
        return missing(TallyRole::Implement, said("Say which one does."));
    }
    BOOST_OUTCOME_TRY(checkCounts(layout, columns));
    const bool isNamedByColumns =
        !columns.counts.empty() &&
        std::all_of(columns.counts.begin(), columns.counts.end(),
                    [&layout](std::size_t column) { return !layout[column].hitter.empty(); });
    if (!columns.of(TallyRole::Hitter) && !isNamedByColumns && source.hitter.empty()) {
        return missing(TallyRole::Hitter, said("Say which one does, or name the one hitter."));
    }
    if (!source.rate && !columns.of(TallyRole::CaptureRate)) {
        return fail(
            ErrorCode::InvalidInput,
            said("Nothing says how many frames per second the camera took. Give the capture "
                 "rate, or say which column holds it."));
    }
    return columns;
}

/// Takes the fields of one row; what is wrong first is told.
class RowFields {
public:
    RowFields(const TextRow& row, const Columns& columns, CommaMeaning comma)
        : m_row{row}, m_columns{columns}, m_comma{comma} {}

    [[nodiscard]] const std::string& at(std::size_t column) const { return m_row.fields[column]; }
    [[nodiscard]] bool has(TallyRole role) const {
        const auto column = m_columns.of(role);
        return column && !at(*column).empty();
    }
    [[nodiscard]] std::string text(TallyRole role) const {
        const auto column = m_columns.of(role);
        return column ? at(*column) : std::string{};
    }
    std::string needed(TallyRole role) {
        if (!has(role)) {
            reject(m_columns.of(role), said("the {} is missing.", roleWords(role)));
        }
        return text(role);
    }
    double number(std::size_t column, TallyRole role, double low, double high) {
        const std::string& field = at(column);
        if (field.empty()) {
            reject(column, said("the {} is missing.", roleWords(role)));
            return low;
        }
        const auto value = numberFrom(field, m_comma);
        if (!value) {
            m_hasTwoReadings |= value.error().code == ErrorCode::Contradiction;
            reject(column, value.error().message);
        } else if (value.value() < low || value.value() > high) {
            reject(column, said("{} cannot be the {}.", field, roleWords(role)));
        }
        return value ? value.value() : low;
    }
    std::int64_t whole(TallyRole role, double low, double high) {
        const auto column = m_columns.of(role);
        if (!column) {
            return static_cast<std::int64_t>(low);
        }
        const double value = number(*column, role, low, high);
        if (value != std::floor(value)) {
            reject(column, said("{} is not a whole number.", at(*column)));
        }
        return static_cast<std::int64_t>(value);
    }
    void reject(std::optional<std::size_t> column, const std::string& what) {
        if (m_fault.empty()) {
            m_fault = placeIn(m_row.number, column) + what;
        }
    }
    [[nodiscard]] const std::string& fault() const { return m_fault; }
    [[nodiscard]] bool hasTwoReadings() const { return m_hasTwoReadings; }

private:
    const TextRow& m_row;
    const Columns& m_columns;
    CommaMeaning m_comma;
    std::string m_fault;
    bool m_hasTwoReadings{};
};

std::int64_t framesBetween(RowFields& fields, const Columns& columns) {
    const auto start = fields.whole(TallyRole::StartFrame, 0.0, 1e12);
    const auto back = fields.whole(TallyRole::ReturnFrame, 0.0, 1e12);
    if (back <= start || back - start > kMostTallyFrames) {
        fields.reject(columns.of(TallyRole::ReturnFrame),
                      said("the return is not after the start, or very far from it."));
    }
    return back - start;
}

std::int64_t framesIn(RowFields& fields, std::size_t column, TallyRole role, int turns) {
    const double given = fields.number(column, role, 1.0, static_cast<double>(kMostTallyFrames));
    const double frames = role == TallyRole::FramesPerTurn ? given * turns : given;
    if (std::abs(frames - std::round(frames)) > kWholeFrames * std::max(1.0, frames)) {
        fields.reject(column, role == TallyRole::Frames
                                  ? said("{} is no whole number of frames.", fields.at(column))
                                  : said("{} frames per turn over {} is no whole number of "
                                         "frames. Give the number of turns that were "
                                         "counted over.",
                                         fields.at(column), counted(turns, "turn", "turns")));
    }
    return std::llround(frames);
}

/// Reads row after row into a tally.
class RowReader {
public:
    RowReader(const TallyLayout& layout, Columns columns, const TallySource& source)
        : m_layout{layout}, m_columns{std::move(columns)}, m_source{source} {}

    void read(const TextRow& row, Tally& tally) {
        RowFields fields{row, m_columns, m_source.comma};
        TallyShot common = commonOf(fields, row.number);
        std::vector<TallyShot> shots;
        if (m_columns.counts.empty()) {
            common.column = *m_columns.of(TallyRole::ReturnFrame);
            common.frames = framesBetween(fields, m_columns);
            shots.push_back(common);
        }
        for (const std::size_t column : m_columns.counts) {
            if (m_columns.counts.size() > 1 && fields.at(column).empty()) {
                continue;
            }
            TallyShot shot = common;
            shot.column = column;
            shot.frames = framesIn(fields, column, m_layout[column].role, shot.turns);
            shot.hitter = hitterOf(fields, column);
            shots.push_back(std::move(shot));
        }
        checkFrames(fields, shots);
        tally.hasTwoReadings |= fields.hasTwoReadings();
        if (!fields.fault().empty()) {
            tally.faults.push_back({row.number, fields.fault()});
            return;
        }
        m_rowsWithoutCounts += shots.empty() ? 1U : 0U;
        std::move(shots.begin(), shots.end(), std::back_inserter(tally.shots));
    }
    [[nodiscard]] std::size_t rowsWithoutCounts() const { return m_rowsWithoutCounts; }

private:
    TallyShot commonOf(RowFields& fields, std::size_t row) const {
        TallyShot shot;
        shot.row = row;
        shot.implement = fields.needed(TallyRole::Implement);
        shot.condition = fields.text(TallyRole::Condition);
        shot.hitter = m_columns.counts.empty() ? hitterOf(fields, std::nullopt) : std::string{};
        shot.shot = fields.text(TallyRole::Shot);
        if (fields.has(TallyRole::Turns)) {
            shot.turns = static_cast<int>(fields.whole(TallyRole::Turns, 1.0, kMostTallyTurns));
        }
        if (fields.has(TallyRole::CaptureRate) || !m_source.rate) {
            const auto stated = timebase::captureRateFromDecimal(fields.number(
                *m_columns.of(TallyRole::CaptureRate), TallyRole::CaptureRate, 1.0, 1e6));
            shot.rate = stated ? stated.value() : shot.rate;
        } else {
            shot.rate = *m_source.rate;
        }
        return shot;
    }
    std::string hitterOf(RowFields& fields, std::optional<std::size_t> column) const {
        if (column && !m_layout[*column].hitter.empty()) {
            return m_layout[*column].hitter;
        }
        if (fields.has(TallyRole::Hitter) || m_source.hitter.empty()) {
            return fields.needed(TallyRole::Hitter);
        }
        return m_source.hitter;
    }
    void checkFrames(RowFields& fields, const std::vector<TallyShot>& shots) const {
        const int symmetry = plan::symmetryOrder(m_source.marking);
        for (const TallyShot& shot : shots) {
            if (static_cast<double>(shot.frames) < kLeastFramesPerTurn * shot.turns * symmetry) {
                fields.reject(
                    shot.column,
                    said("fewer than two frames until the ball looks alike: the rate cannot "
                         "be told from another one."));
            }
        }
    }

    const TallyLayout& m_layout;
    Columns m_columns;
    const TallySource& m_source;
    std::size_t m_rowsWithoutCounts{};
};

/// What stands in columns without a name that nobody said anything of: perhaps the fields of a row
/// are displaced.
void tellUnnamed(const TallySheet& sheet, const TallyLayout& layout, Tally& tally) {
    for (std::size_t column = 0; column < layout.size(); ++column) {
        if (layout[column].role != TallyRole::LeaveOut || !sheet.headers[column].empty()) {
            continue;
        }
        const auto filled =
            std::find_if(sheet.rows.begin(), sheet.rows.end(),
                         [column](const TextRow& row) { return !row.fields[column].empty(); });
        if (filled != sheet.rows.end()) {
            tally.remarks.push_back(
                said("Column {} has no name and is left out; row {} has \"{}\" there.",
                     columnLetters(column), filled->number, filled->fields[column]));
        }
    }
}

}  // namespace

Rpm TallyShot::spin() const {
    return {60.0 * turns * rate.fps.toDouble() / static_cast<double>(frames)};
}

Result<Tally> readTally(const TallySheet& sheet, const TallyLayout& layout,
                        const TallySource& source) {
    BOOST_OUTCOME_TRY(columns, checkedColumns(sheet, layout, source));
    const std::vector<std::size_t> attributes = columns.attributes;
    RowReader reader{layout, std::move(columns), source};
    Tally tally;
    for (const TextRow& row : sheet.rows) {
        reader.read(row, tally);
    }
    if (reader.rowsWithoutCounts() > 0) {
        tally.remarks.push_back(
            saidOf(reader.rowsWithoutCounts(), "{} row has no count and adds no shot.",
                   "{} rows have no count and add no shot.", reader.rowsWithoutCounts()));
    }
    tellUnnamed(sheet, layout, tally);
    decideNames(tally, source);
    takeAttributes(tally, sheet, attributes, source);
    holdUpImprobable(tally);
    return tally;
}

}  // namespace core::intake
