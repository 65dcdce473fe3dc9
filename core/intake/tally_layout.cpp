#include <algorithm>
#include <map>
#include <set>

#include "core/base/alike.h"
#include "core/intake/tally_words.h"

/// What the columns of a table of counts seem to hold.
namespace core::intake {
namespace {

constexpr std::size_t kRowsLookedAt = 200;

/// Where the header does not say it.
class LayoutGuess {
public:
    explicit LayoutGuess(const TallySheet& sheet)
        : m_sheet{sheet}, m_layout(sheet.headers.size()), m_hasNumbers(sheet.headers.size()) {
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            m_hasNumbers[column] = holdsNumbers(column);
        }
        takeWords();
        findCounts();
    }

    [[nodiscard]] TallyShape shape() const {
        if (m_counts.size() < 2) {
            return TallyShape::ShotRows;
        }
        const bool areGrouped = std::any_of(m_counts.begin(), m_counts.end(),
                                            [](const auto& each) { return !each.second.empty(); });
        return areGrouped && !isThere(TallyRole::Hitter) ? TallyShape::HitterBlocks
                                                         : TallyShape::CellRows;
    }

    TallyLayout layoutFor(TallyShape shape) && {
        if (shape != TallyShape::ShotRows) {
            takeCounts(shape == TallyShape::HitterBlocks);
        }
        takeImplement();
        takeAttributes();
        return std::move(m_layout);
    }

private:
    /// At least half of what stands in the first rows.
    [[nodiscard]] bool holdsNumbers(std::size_t column) const {
        std::size_t numbers = 0;
        std::size_t filled = 0;
        for (std::size_t i = 0; i < std::min(m_sheet.rows.size(), kRowsLookedAt); ++i) {
            const std::string& field = m_sheet.rows[i].fields[column];
            filled += field.empty() ? 0U : 1U;
            numbers += !field.empty() && isNumber(field) ? 1U : 0U;
        }
        return numbers > 0 && 2 * numbers >= filled;
    }
    [[nodiscard]] bool isThere(TallyRole role) const {
        return std::any_of(m_layout.begin(), m_layout.end(),
                           [role](const auto& column) { return column.role == role; });
    }
    /// Whether nothing but the numbers in it says what a column is.
    [[nodiscard]] bool isFree(std::size_t column) const {
        return m_layout[column].role == TallyRole::LeaveOut &&
               roleOfHeader(m_sheet.headers[column]) != TallyRole::LeaveOut;
    }

    /// Of several columns for one role the one with the best word, of these the first.
    void takeWords() {
        std::map<TallyRole, std::size_t> best;
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            const std::string& header = m_sheet.headers[column];
            const auto role = roleOfHeader(header);
            if (!role || *role == TallyRole::LeaveOut || !m_sheet.upperHeaders[column].empty()) {
                continue;
            }
            const auto [known, isNew] = best.try_emplace(*role, column);
            if (!isNew && rankOfHeader(header) < rankOfHeader(m_sheet.headers[known->second])) {
                known->second = column;
            }
        }
        if (best.contains(TallyRole::Frames) || best.contains(TallyRole::FramesPerTurn)) {
            best.erase(TallyRole::StartFrame);
            best.erase(TallyRole::ReturnFrame);
        }
        if (best.contains(TallyRole::FramesPerTurn)) {
            best.erase(TallyRole::Frames);
        }
        for (const auto& [role, column] : best) {
            m_layout[column].role = role;
        }
    }

    /// Numbers, or, between numbered columns of counts, whatever is to be told of as a fault.
    [[nodiscard]] bool mayHoldCounts(std::size_t column) const {
        const TallyRole role = m_layout[column].role;
        const bool isNumbered = !m_sheet.upperHeaders[column].empty() ||
                                shotHeader(m_sheet.headers[column]).has_value();
        const bool isBehindCounts = column > 0 && m_counts.contains(column - 1);
        return (m_hasNumbers[column] || (isNumbered && isBehindCounts)) &&
               (isCount(role) || isFree(column));
    }
    [[nodiscard]] bool isRepeated(const std::string& header) const {
        return std::count(m_sheet.headers.begin(), m_sheet.headers.end(), header) > 1;
    }
    [[nodiscard]] bool isUnnamed(std::size_t column) const {
        return column < m_layout.size() && m_sheet.headers[column].empty() && mayHoldCounts(column);
    }
    /// A name over unnamed columns is a hitter's, unless a column names the hitters.
    [[nodiscard]] bool mayHeadCounts(std::size_t column) const {
        return !isFree(column) || !isThere(TallyRole::Hitter);
    }
    static std::string hitterIn(const std::string& header) {
        return roleOfHeader(header) ? std::string{} : header;
    }

    /// The columns of counts, and whose they are where the header says it.
    void findCounts() {
        const auto hasContent = [](const std::string& header) { return !header.empty(); };
        if (std::none_of(m_sheet.headers.begin(), m_sheet.headers.end(), hasContent)) {
            return;
        }
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            const std::string& header = m_sheet.headers[column];
            if (!mayHoldCounts(column)) {
                continue;
            }
            if (!m_sheet.upperHeaders[column].empty()) {
                m_counts[column] = hitterIn(m_sheet.upperHeaders[column]);
            } else if (const auto shot = shotHeader(header)) {
                m_counts[column] = hitterIn(shot->group);
            } else if (header.empty()) {
                const auto before = column > 0 ? m_counts.find(column - 1) : m_counts.end();
                m_counts[column] = before == m_counts.end() ? std::string{} : before->second;
            } else if (isRepeated(header) || (isUnnamed(column + 1) && mayHeadCounts(column))) {
                m_counts[column] = hitterIn(header);
            }
        }
    }

    void takeCounts(bool areHittersSideBySide) {
        if (m_counts.size() < 2) {  // somebody says so where nothing shows it
            for (std::size_t column = 0; column < m_layout.size(); ++column) {
                if (mayHoldCounts(column)) {
                    m_counts[column] = hitterIn(m_sheet.headers[column]);
                }
            }
        }
        const TallyRole role =
            isThere(TallyRole::FramesPerTurn) ? TallyRole::FramesPerTurn : TallyRole::Frames;
        for (TallyColumn& column : m_layout) {
            const bool isOfShotRows =
                isCount(column.role) || column.role == TallyRole::StartFrame ||
                column.role == TallyRole::ReturnFrame || column.role == TallyRole::Shot;
            if (isOfShotRows || (areHittersSideBySide && column.role == TallyRole::Hitter)) {
                column = {};
            }
        }
        for (const auto& [column, hitter] : m_counts) {
            m_layout[column].role = role;
            if (areHittersSideBySide) {
                m_layout[column].hitter = hitter.empty() ? columnLabel(m_sheet, column) : hitter;
            }
        }
    }

    void takeImplement() {
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            if (!isThere(TallyRole::Implement) && isFree(column) && !m_hasNumbers[column]) {
                m_layout[column].role = TallyRole::Implement;
            }
        }
    }

    void takeAttributes() {
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            const std::string& header = m_sheet.headers[column];
            const auto named = roleOfHeader(header);
            const bool mayBeOne = !named || *named == TallyRole::Implement;
            if (!header.empty() && mayBeOne && isFree(column) && isOneForEachImplement(column)) {
                m_layout[column].role = TallyRole::Attribute;
            }
        }
    }
    [[nodiscard]] bool isOneForEachImplement(std::size_t column) const {
        std::map<std::string, std::string> values;
        for (const TextRow& row : m_sheet.rows) {
            const std::string& value = row.fields[column];
            if (!value.empty() &&
                values.try_emplace(implementIn(row), value).first->second != value) {
                return false;
            }
        }
        return !values.empty();
    }
    [[nodiscard]] std::string implementIn(const TextRow& row) const {
        std::string key;
        for (std::size_t column = 0; column < m_layout.size(); ++column) {
            const TallyRole role = m_layout[column].role;
            if (role == TallyRole::Implement || role == TallyRole::Condition) {
                key += alikeKey(row.fields[column]) + '\n';
            }
        }
        return key;
    }

    const TallySheet& m_sheet;
    TallyLayout m_layout;
    std::vector<bool> m_hasNumbers;               ///< a column
    std::map<std::size_t, std::string> m_counts;  ///< columns of counts, with their hitter
};

}  // namespace

TallyLayout proposeLayout(const TallySheet& sheet) {
    LayoutGuess guess{sheet};
    const TallyShape shape = guess.shape();
    return std::move(guess).layoutFor(shape);
}

TallyLayout proposeLayout(const TallySheet& sheet, TallyShape shape) {
    return LayoutGuess{sheet}.layoutFor(shape);
}

void assignRole(TallyLayout& layout, std::size_t column, TallyRole role) {
    const auto isOfFrames = [](TallyRole each) {
        return each == TallyRole::StartFrame || each == TallyRole::ReturnFrame;
    };
    const bool mayRepeat = role == TallyRole::LeaveOut || role == TallyRole::Attribute;
    for (TallyColumn& other : layout) {
        if (isCount(role) && isCount(other.role)) {
            other.role = role;
        } else if ((!mayRepeat && other.role == role) ||
                   (isCount(role) && isOfFrames(other.role)) ||
                   (isOfFrames(role) && isCount(other.role))) {
            other = {};
        }
    }
    layout[column].role = role;
    if (!isCount(role)) {
        layout[column].hitter.clear();
    }
}

bool isCount(TallyRole role) noexcept {
    return role == TallyRole::Frames || role == TallyRole::FramesPerTurn;
}

TallyShape shapeOf(const TallyLayout& layout) {
    std::size_t counts = 0;
    for (const TallyColumn& column : layout) {
        if (isCount(column.role) && !column.hitter.empty()) {
            return TallyShape::HitterBlocks;
        }
        counts += isCount(column.role) ? 1U : 0U;
    }
    return counts > 1 ? TallyShape::CellRows : TallyShape::ShotRows;
}

}  // namespace core::intake
