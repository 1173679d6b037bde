//! Logs as people write them: units in cells, times of a wall clock, a column `time`, date and time apart.

use super::{TIMES, columns, log, log_on, shown, tank};
use crate::Channel;

const WARM: [f64; 3] = [10.0, 20.0, 30.0];

#[test]
fn units_in_cells() {
    assert_eq!(
        tank(&log("elapsed [min],tank\n0,50 F\n10,68 F\n20,86\n")),
        (TIMES.to_vec(), WARM.to_vec()),
        "as the first"
    );
    assert_eq!(
        tank(&log("elapsed [min],tank [degC]\n0,50 \u{b0}F\n10,20\n20,30 C\n")),
        (TIMES.to_vec(), WARM.to_vec())
    );
    let flow = log("elapsed [min],tank [degC],flow\n0,10,0.05 kg/s\n10,20,0.05 kg/s\n20,30,0.05\n");
    assert_eq!(columns(&flow, Channel::Flow).1, [0.05; 3]);
    let comma = log("elapsed [min];tank\n0;10,5 C\n10;20,25 C\n20;30,0 C\n");
    assert_eq!(tank(&comma).1, [10.5, 20.25, 30.0]);
    // NIST SP 811: 1 lb is 0.453 592 37 kg.
    let wood = log("elapsed [min],tank [degC],fuel_added [kg]\n0,10,2 lb 8 oz\n10,20,\n20,30,2 1/2 lb\n");
    let added = wood.readings.as_ref().and_then(|r| r.channel(Channel::FuelAdded)).map(|v| [v[0], v[2]]);
    assert_eq!(added, Some([2.5 * 0.453_592_37; 2]));
    insta::assert_snapshot!(shown(&log("elapsed [min],tank [degC]\n0,10\n10,20 kg\n20,30\n")), @r#"
    3 readings
    Warning 3:2 NotANumber { channel: Tank, cell: "20 kg" }
    "#);
}

#[test]
fn a_column_that_is_only_called_time() {
    for text in [
        "Time,Tank [degC]\n10:00,10\n10:10,20\n10:20,30\n",
        "time,tank [degC]\n4 PM,10\n4:10 p.m.,20\n4:20 PM,30\n",
        "time [min],tank [degC]\n0,10\n10,20\n20,30\n",
        "time,tank\nmin,degC\n0,10\n10,20\n20,30\n",
        "time,tank [degC]\n00:00:00,10\n00:10:00,20\n00:20:00,30\n",
        "time,tank [degC]\n46105.500000,10\n46105.506944444,20\n46105.513888889,30\n",
        "date,time,tank [degC]\n24.03.2026,23:50,10\n25.03.2026,0:00,20\n25.03.2026,0:10,30\n",
        "time,clock,tank [degC]\n1,10:00,10\n2,10:10,20\n3,10:20,30\n",
    ] {
        let (times, values) = tank(&log(text));
        assert!(times.iter().zip(TIMES).all(|(a, b)| (a - b).abs() < 0.01), "{text}: {times:?}");
        assert_eq!(values, WARM, "{text}");
    }
    insta::assert_snapshot!(shown(&log("time,tank [degC]\n0,10\n10,20\n20,30\n")), @r#"
    left out
    Error 1:1 TimeWithoutUnit { header: "time", cell: "0" }
    "#);
    insta::assert_snapshot!(shown(&log("time,tank [degC]\n0:00,10\n0:10,20\n0:20,30\n")), @r#"
    left out
    Error 2:1 TimeAmbiguous("0:00"), 2 more to line 4
    "#);
}

#[test]
fn a_wall_clock_past_noon_is_told() {
    let trial = log("clock,tank [degC]\n11:40,10\n12:20,20\n1:05,30\n1:40,35\n");
    insta::assert_snapshot!(shown(&trial), @r#"
    4 readings
    Warning 4:1 TimePastTwelve { cell: "1:05", of_day_s: 47100.0 }
    "#);
    assert_eq!(trial.readings.map(|r| r.elapsed_s), Some(vec![0.0, 2400.0, 5100.0, 7200.0]));
}

#[test]
fn dates_between_slashes_need_evidence() {
    let text = "clock,tank [degC]\n3/4/2026 10:00,10\n3/4/2026 10:10,20\n3/4/2026 10:20,30\n";
    insta::assert_snapshot!(shown(&log(text)), @r#"
    left out
    Error 2:1 TimeTwoDates { cell: "3/4/2026 10:00", dates: ["2026-04-03", "2026-03-04"] }, 2 more to line 4
    "#);
    assert_eq!(tank(&log_on(Some("2026-03-04"), "", text.as_bytes())), (TIMES.to_vec(), WARM.to_vec()));
}
