#include "core/project/file/row.h"

#include <bit>
#include <boost/crc.hpp>

#include "core/base/expects.h"
#include "core/base/words.h"

namespace core::project {
namespace {

class CheckSum {
public:
    void addByte(std::uint8_t byte) { m_crc.process_byte(byte); }
    void addNumber(std::uint64_t number) {
        for (int shift = 0; shift < 64; shift += 8) {  // little-endian on every machine
            addByte(static_cast<std::uint8_t>(number >> shift));
        }
    }
    void addBytes(const void* data, std::size_t size) {
        addNumber(size);
        m_crc.process_bytes(data, size);
    }
    [[nodiscard]] std::int64_t sum() const { return m_crc.checksum(); }

    void operator()(std::monostate) { addByte(0); }
    void operator()(std::int64_t number) {
        addByte(1);
        addNumber(static_cast<std::uint64_t>(number));
    }
    void operator()(double number) {
        addByte(2);
        addNumber(std::bit_cast<std::uint64_t>(number));
    }
    void operator()(const std::string& text) {
        addByte(3);
        addBytes(text.data(), text.size());
    }
    void operator()(const Blob& blob) {
        addByte(4);
        addBytes(blob.data(), blob.size());
    }

private:
    boost::crc_32_type m_crc;
};

}  // namespace

std::int64_t rowCheck(const Row& withoutCheck) {
    CheckSum sum;
    for (const Value& value : withoutCheck) {
        std::visit(sum, value);
    }
    return sum.sum();
}

Row sealed(Row row) {
    row.emplace_back(rowCheck(row));
    return row;
}

Result<Row> unsealed(Row row) {
    CORE_EXPECTS(!row.empty());
    const Value check = std::move(row.back());
    row.pop_back();
    if (check != Value{rowCheck(row)}) {
        return fail(ErrorCode::Damaged, said("the row's check number does not fit its content"));
    }
    return row;
}

}  // namespace core::project
