#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tests {

/// A table of published or independently computed values: CSV with a header row; lines that start
/// with '#' name the source and are skipped; a field may stand in double quotes.
class ReferenceTable {
public:
    /// Reads a file of tests/data, by its path there ("tables/t_quantiles.csv"). Throws
    /// std::runtime_error with the path when it cannot be read: a test must not go on without it.
    static ReferenceTable load(const std::filesystem::path& underTestsData);

    [[nodiscard]] std::size_t rowCount() const noexcept { return m_rows.size(); }
    /// Text of a cell. Throws std::out_of_range for an unknown column.
    [[nodiscard]] const std::string& text(std::size_t row, const std::string& column) const;
    /// Number of a cell; "Inf" and "NA" as R writes them.
    [[nodiscard]] double number(std::size_t row, const std::string& column) const;
    /// All numbers of a column.
    [[nodiscard]] std::vector<double> numbers(const std::string& column) const;
    [[nodiscard]] bool hasColumn(const std::string& column) const;

private:
    std::vector<std::string> m_columns;
    std::vector<std::vector<std::string>> m_rows;
};

/// Folder tests/data of the source tree.
std::filesystem::path dataFolder();

}  // namespace tests
