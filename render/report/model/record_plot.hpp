#pragma once
#include "report/model/deviation_plot.hpp"

/// What was recorded beside the readings: curves over the measuring time. Times are minutes from midnight of the record's first day.
namespace wayfolio::report {

struct RecordCurve {
    std::string name;                                              ///< of the sensor; empty where the panel's title says it
    std::vector<std::pair<double, std::optional<double>>> points;  ///< time and value, rising times; a missing value breaks the line
    Text words;                                                    ///< name and range, beside the figure
};

struct RecordPanel {
    std::string title;  ///< "Air / °C"
    std::vector<RecordCurve> curves;
};

struct RunLane {
    double from, to;
    Approach approach;
    std::string number;  ///< of the run in its direction
};

/// Series that were read in the same runs.
struct Session {
    double from, to;
    std::string words;  ///< "as found", "EXX, as left"
};

/// Small multiples on one time axis.
struct RecordPlot {
    std::string first_day;  ///< "2026-05-11"
    double from = 0, to = 0;
    std::vector<RecordPanel> panels;
    std::vector<RunLane> lanes;
    std::vector<Session> sessions;
    std::string alternative;  ///< what a colleague would say over the phone
};

/// The runs of one series in the order in which they were read, with the temperatures over the same clock.
struct RunOrder {
    struct Run {
        double from, to;
        Approach approach;
        Deviation mean;  ///< over the targets that all runs have
    };
    std::vector<Run> runs;
    DeviationUnit unit;        ///< shown
    RecordPlot record;         ///< the clock; one panel of temperatures, or none where none were recorded
    std::vector<Text> words;   ///< beside the means
    std::string alternative;
};

}  // namespace wayfolio::report
