#include "core/intake/tally_checks.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "core/base/alike.h"
#include "core/base/words.h"

/// Names, attributes and counts of a tally that a person should look at.
namespace core::intake {
namespace {

using NameOf = std::string TallyShot::*;

/// The spellings of each name of one kind: first those of the project, then those of the table.
class Spellings {
public:
    void addOfProject(const std::string& name) {
        if (add(name)) {
            m_ofProject.insert(name);
        }
    }
    void addOfTable(const std::string& name) { add(name); }

    /// Those to which the table adds a spelling that is new to the project.
    [[nodiscard]] std::vector<AlikeGroup> alike(const std::string& kind) const {
        std::vector<AlikeGroup> groups;
        for (const auto& [key, names] : m_byKey) {
            if (names.size() > 1 && !m_ofProject.contains(names.back())) {
                groups.push_back({kind, names});
            }
        }
        return groups;
    }
    /// The first spelling for every one that is not the project's.
    [[nodiscard]] std::string joined(const std::string& name) const {
        const auto found = m_byKey.find(alikeKey(name));
        return found == m_byKey.end() || m_ofProject.contains(name) ? name : found->second.front();
    }

private:
    bool add(const std::string& name) {
        const bool isNew = !name.empty() && m_seen.insert(name).second;
        if (isNew) {
            m_byKey[alikeKey(name)].push_back(name);
        }
        return isNew;
    }

    std::set<std::string> m_seen;
    std::set<std::string> m_ofProject;
    std::map<std::string, std::vector<std::string>> m_byKey;
};

void decideNamesOf(Tally& tally, NameOf name, const std::string& kind, Spellings spellings,
                   AlikeNames decision) {
    for (const TallyShot& shot : tally.shots) {
        spellings.addOfTable(shot.*name);
    }
    const auto groups = spellings.alike(kind);
    if (decision == AlikeNames::Ask) {
        tally.alike.insert(tally.alike.end(), groups.begin(), groups.end());
    } else if (decision == AlikeNames::Join && !groups.empty()) {
        for (TallyShot& shot : tally.shots) {
            shot.*name = spellings.joined(shot.*name);
        }
    }
}

void decideConditions(Tally& tally, const TallySource& source) {
    std::map<std::string, std::set<std::string>> conditions;
    if (source.project) {
        for (const auto& implement : source.project->implements) {
            conditions[implement.name].insert(implement.condition);
        }
    }
    for (const TallyShot& shot : tally.shots) {
        if (!shot.condition.empty()) {
            conditions[shot.implement].insert(shot.condition);
        }
    }
    std::set<std::string> told;
    for (TallyShot& shot : tally.shots) {
        const auto known = conditions.find(shot.implement);
        if (!shot.condition.empty() || known == conditions.end() || known->second.contains({})) {
            continue;
        }
        const bool isOne = known->second.size() == 1;
        if (told.insert(shot.implement).second) {
            tally.remarks.push_back(
                isOne ? said("{} without a condition is taken for {} ({}).", shot.implement,
                             shot.implement, *known->second.begin())
                      : said("{} without a condition is an implement of its own, beside "
                             "those that are {}.",
                             shot.implement, fmt::format("{}", fmt::join(known->second, ", "))));
        }
        if (isOne) {
            shot.condition = *known->second.begin();
        }
    }
}

/// The attributes of implements as rows and project say them.
class AttributeTaker {
public:
    AttributeTaker(Tally& tally, const TallySource& source) : m_tally{tally} {
        if (source.project) {
            for (const auto& implement : source.project->implements) {
                for (const auto& [name, value] : implement.attributes) {
                    m_said[{implement.name, implement.condition}][name] = {value,
                                                                           said("in the project")};
                }
            }
        }
    }
    /// What is wrong with it; empty for nothing.
    std::string take(const TallyShot& shot, const std::string& attribute, const TextRow& row,
                     std::size_t column) {
        const std::string& value = row.fields[column];
        if (value.empty()) {
            return {};
        }
        const TallyImplement implement{shot.implement, shot.condition};
        const auto [known, isNew] =
            m_said[implement].try_emplace(attribute, Said{value, said("in row {}", row.number)});
        if (isNew) {
            m_tally.attributes[implement][attribute] = value;
        }
        return known->second.value == value
                   ? std::string{}
                   : said(
                         "Row {}, column {}: {} of {} is {} here and {} {}. Make them "
                         "equal, or leave the column out.",
                         row.number, columnLetters(column), attribute, shot.implement, value,
                         known->second.value, known->second.where);
    }

private:
    struct Said {
        std::string value;
        std::string where;
    };
    Tally& m_tally;
    std::map<TallyImplement, std::map<std::string, Said>> m_said;
};

double medianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return 0.5 * (*middle + *std::max_element(values.begin(), middle));
}

/// Medians of the spins of all cells, implements and of the table.
class Medians {
public:
    explicit Medians(const std::vector<TallyShot>& shots) {
        for (const TallyShot& shot : shots) {
            for (const Key& key : keysOf(shot)) {
                m_spins[key].push_back(shot.spin().rpm);
            }
        }
        for (auto& [key, spins] : m_spins) {
            if (spins.size() >= kLeastForMedian) {
                m_medians[key] = medianOf(std::move(spins));
            }
        }
    }
    /// Of the cell if it has enough counts, else of what it is a part of; in words of what.
    [[nodiscard]] std::optional<std::pair<double, std::string>> around(
        const TallyShot& shot) const {
        const auto keys = keysOf(shot);
        const std::array names{said("{} with {}", shot.implement, shot.hitter), shot.implement,
                               said("the table")};
        for (std::size_t i = 0; i < keys.size(); ++i) {
            if (const auto found = m_medians.find(keys.at(i)); found != m_medians.end()) {
                return std::pair{found->second, names.at(i)};
            }
        }
        return std::nullopt;
    }

private:
    using Key = std::tuple<int, std::string, std::string, std::string>;
    static std::array<Key, 3> keysOf(const TallyShot& shot) {
        return {Key{0, shot.implement, shot.condition, shot.hitter},
                Key{1, shot.implement, shot.condition, {}}, Key{2, {}, {}, {}}};
    }

    std::map<Key, std::vector<double>> m_spins;
    std::map<Key, double> m_medians;
};

std::string countText(const TallyShot& shot) {
    return said("Row {}, column {}: {} over {} at {:g} per second are {:.0f} rpm", shot.row,
                columnLetters(shot.column), counted(shot.frames, "frame", "frames"),
                counted(shot.turns, "turn", "turns"), shot.rate.fps.toDouble(), shot.spin().rpm);
}

/// What is odd about a count; empty for none.
std::string oddityOf(const TallyShot& shot, const Medians& medians) {
    const double spin = shot.spin().rpm;
    if (spin < kProbableSpin.low.rpm || spin > kProbableSpin.high.rpm) {
        return said("{}; struck balls have {:.0f} to {:.0f} rpm.", countText(shot),
                    kProbableSpin.low.rpm, kProbableSpin.high.rpm);
    }
    const auto around = medians.around(shot);
    if (!around) {
        return {};
    }
    const auto& [median, name] = *around;
    const double factor = std::max(spin / median, median / spin);
    return factor < kImprobableFactor
               ? std::string{}
               : said("{}; the median of {} is {:.0f} rpm, a factor {:.1f} apart.", countText(shot),
                      name, median, factor);
}

}  // namespace

bool TallyImplement::operator<(const TallyImplement& other) const {
    return std::tie(name, condition) < std::tie(other.name, other.condition);
}

void decideNames(Tally& tally, const TallySource& source) {
    Spellings implements;
    Spellings conditions;
    Spellings hitters;
    if (source.project) {
        for (const auto& implement : source.project->implements) {
            implements.addOfProject(implement.name);
            conditions.addOfProject(implement.condition);
        }
        for (const auto& hitter : source.project->hitters) {
            hitters.addOfProject(hitter.name);
        }
    }
    decideNamesOf(tally, &TallyShot::implement, "implement", std::move(implements), source.alike);
    decideNamesOf(tally, &TallyShot::condition, "condition", std::move(conditions), source.alike);
    decideNamesOf(tally, &TallyShot::hitter, "hitter", std::move(hitters), source.alike);
    decideConditions(tally, source);
}

void takeAttributes(Tally& tally, const TallySheet& sheet, const std::vector<std::size_t>& columns,
                    const TallySource& source) {
    AttributeTaker taker{tally, source};
    std::map<std::size_t, const TallyShot*> shotOfRow;
    for (const TallyShot& shot : tally.shots) {
        shotOfRow.try_emplace(shot.row, &shot);
    }
    std::set<std::size_t> wrong;
    for (const TextRow& row : sheet.rows) {
        const auto shot = shotOfRow.find(row.number);
        for (const std::size_t column : columns) {
            if (shot == shotOfRow.end() || wrong.contains(row.number)) {
                break;
            }
            const auto fault = taker.take(*shot->second, columnLabel(sheet, column), row, column);
            if (!fault.empty()) {
                wrong.insert(row.number);
                tally.faults.push_back({row.number, fault});
            }
        }
    }
    std::erase_if(tally.shots, [&](const TallyShot& shot) { return wrong.contains(shot.row); });
    std::stable_sort(tally.faults.begin(), tally.faults.end(),
                     [](const auto& a, const auto& b) { return a.row < b.row; });
}

void holdUpImprobable(Tally& tally) {
    const Medians medians{tally.shots};
    for (const TallyShot& shot : tally.shots) {
        if (std::string oddity = oddityOf(shot, medians); !oddity.empty()) {
            tally.improbable.push_back({shot.row, std::move(oddity)});
        }
    }
}

}  // namespace core::intake
