#include "core/stats/comparison/crossed_anova.h"

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {

Result<void> checkTable(const ReaderTable& table, std::string_view what) {
    if (table.shots < 2 || table.readers < 2 || table.repeats < 1 ||
        table.values.size() != table.shots * table.readers * table.repeats) {
        return fail(
            ErrorCode::InvalidInput,
            said("{}: values {}, shots {}, readers {}, repeats {}. At least two shots and two "
                 "readers are needed, "
                 "and every reader must have read every shot equally often.",
                 saidText(what), table.values.size(), table.shots, table.readers, table.repeats));
    }
    return checkValues(table.values, what, 4);
}

CrossedSums crossedSums(const ReaderTable& table) {
    std::vector<long double> cells(table.shots * table.readers);
    std::vector<long double> shots(table.shots);
    std::vector<long double> readers(table.readers);
    long double grand = 0.0L;
    const auto repeats = static_cast<long double>(table.repeats);
    const auto shotCount = static_cast<long double>(table.shots);
    const auto readerCount = static_cast<long double>(table.readers);
    for (std::size_t i = 0; i < table.values.size(); ++i) {
        cells[i / table.repeats] += static_cast<long double>(table.values[i]) / repeats;
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
        shots[i / table.readers] += cells[i] / readerCount;
        readers[i % table.readers] += cells[i] / shotCount;
        grand += cells[i] / (shotCount * readerCount);
    }
    CrossedSums sums;
    const auto add = [](double& sum, long double deviation, long double weight) {
        sum += static_cast<double>(weight * deviation * deviation);
    };
    for (std::size_t i = 0; i < table.values.size(); ++i) {
        add(sums.repeats, static_cast<long double>(table.values[i]) - cells[i / table.repeats],
            1.0L);
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const long double additive = shots[i / table.readers] + readers[i % table.readers] - grand;
        add(sums.interaction, cells[i] - additive, repeats);
    }
    for (const long double shot : shots) {
        add(sums.shots, shot - grand, readerCount * repeats);
    }
    for (const long double reader : readers) {
        add(sums.readers, reader - grand, shotCount * repeats);
    }
    return sums;
}

}  // namespace core::stats
