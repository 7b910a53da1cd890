// What the number of a workbook's cell is shown as, and the day that a serial number stands for.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

enum class NumberFormat { general, date, percent };

/// Of the formats that a workbook need not define (ISO/IEC 29500-1, 18.8.30).
NumberFormat built_in_format(std::uint32_t id);
/// Of a format code: a date where it shows a year or a day, a percentage where it shows a percent sign.
NumberFormat format_of_code(std::string_view code);

/// The first day of a workbook's serial numbers (ISO/IEC 29500-1, 18.17.4.1).
enum class DateSystem { from_1900, from_1904 };

/// `YYYY-MM-DD`, with `Thh:mm` where the number has a fraction; none for a number outside of the system, the day
/// 1900-02-29 among it, which never was.
std::optional<std::string> day_of_serial(double serial, DateSystem system);

}  // namespace panel_dossier
