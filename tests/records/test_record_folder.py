"""A program folder as values, each bad row as a finding at its cell."""

from datetime import date

import pytest
from openpyxl import Workbook

from builder.course.course import Course
from builder.course.reference_body import LungReference
from builder.records.attendance import Attendance, Outcome
from builder.records.record_folder import RecordsReading, read_records
from builder.records.result import Result, Side
from tests.records.conftest import PEOPLE, TODAY, WriteProgram

PEOPLE_HEAD = (
    "id,display name,birth year,sex for lung reference,height cm,weight kg,conditions,goal"
)
MORE_HEAD = f"{PEOPLE_HEAD},cleared,hands on,language"
RESULTS_HEAD = "date,person,measure,side,value,unit,lesson,note,entry"
ATTENDANCE_HEAD = "date,person,lesson,outcome,breaths done,rest seconds,entry"


@pytest.fixture
def read(course: Course, write_program: WriteProgram):
    def read_files(**files: str) -> RecordsReading:
        written = {f"{name}.csv": text for name, text in files.items()}
        return read_records(write_program(written), course, TODAY)

    return read_files


def told(reading: RecordsReading) -> list[str]:
    return [str(each) for each in reading.findings]


def test_a_person_is_read_with_all_that_is_known(read) -> None:
    row = (
        'p-07,Ada Quill,1980,Female,"165,5",60,pregnancy; high-blood-pressure,Dance,'
        "pregnancy 2026-09-14;high-blood-pressure 2026-10-01,2026-10-02,es"
    )
    reading = read(people=f"{MORE_HEAD}\n{row}\n")
    person = reading.program.people["p-07"]
    assert told(reading) == []
    assert (person.name, person.birth_year, person.goal) == ("Ada Quill", 1980, "Dance")
    assert (person.height_cm, person.weight_kg) == (165.5, 60)
    assert person.lung_reference is LungReference.FEMALE
    assert person.conditions == ("pregnancy", "high-blood-pressure")
    assert person.cleared["pregnancy"] == date(2026, 9, 14)
    assert person.uncleared == ()
    assert (person.hands_on, person.language) == (date(2026, 10, 2), "es")


@pytest.mark.parametrize(
    "head",
    [
        "ID,Name,Birth_Year,Sex,Height (cm),WEIGHT-KG,Conditions,Goal",
        "id,display_name,year of birth,lung reference,height_cm,weight [kg],condition,goal",
        "\ufeffid,Display name,birth year,Sex (for lung reference),height,weight,conditions,goal",
    ],
)
def test_headers_are_known_by_what_people_call_them(read, head: str) -> None:
    reading = read(people=f"{head}\np-01,Ada,1980,female,165,60,pregnancy,Walk\n")
    person = reading.program.people["p-01"]
    assert told(reading) == []
    assert (person.name, person.height_cm, person.weight_kg) == ("Ada", 165, 60)
    assert (person.conditions, person.lung_reference) == (("pregnancy",), LungReference.FEMALE)


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("p-01,,,,,,,,,,", '2:2: K106 value-unsound: the cell under "display name" is empty'),
        (",A,,,,,,,,,", '2:1: K106 value-unsound: the cell under "id" is empty'),
        ("p_01,A,,,,,,,,,", '2:1: K106 value-unsound: what stands under "id" is no id'),
        ("p--1,A,,,,,,,,,", '2:1: K106 value-unsound: what stands under "id" is no id'),
        (f"{'p' * 41},A,,,,,,,,,", '2:1: K106 value-unsound: what stands under "id" is no id'),
        ("Nul,A,,,,,,,,,", '2:1: K106 value-unsound: "Nul" can\'t be a file name'),
        ("p-01,A,80,,,,,,,,", '2:3: K106 value-unsound: "80" under "birth year" is outside'),
        ("p-01,A,1980.5,,,,,,,,", '2:3: K106 value-unsound: "1980.5" under "birth year" is no'),
        ("p-01,A,,other,,,,,,,", '2:4: K106 value-unsound: "other" under "sex for lung'),
        ("p-01,A,,,1650,,,,,,", '2:5: K106 value-unsound: "1650" under "height cm" is outside'),
        ("p-01,A,,,,6e1,,,,,", '2:6: K106 value-unsound: "6e1" under "weight kg" is no number'),
        ('p-01,A,,,"1,650",,,,,,', '2:5: K106 value-unsound: "1,650" under "height cm" can be'),
        ("p-01,A,,,,,pregnacy,,,,", '2:7: K105 name-unlisted: "pregnacy" under "conditions" is'),
        ("p-01,A,,,,,,,pregnancy,,", '2:9: K106 value-unsound: "pregnancy" is no condition with'),
        ("p-01,A,,,,,,,asthma 2026-01-01,,", '2:9: K105 name-unlisted: "asthma" under "cleared"'),
        ("p-01,A,,,,,,,pregnancy 2027-01-01,,", "2:9: K106 value-unsound: 2027-01-01 is still"),
        ("p-01,A,,,,,,,,yes,", '2:10: K106 value-unsound: "yes" is not written as year-month'),
        ("p-01,A,,,,,,,,,e", '2:11: K106 value-unsound: "e" is no language tag'),
    ],
)
def test_a_person_with_a_fault_is_told_and_left_out_whole(read, row: str, found: str) -> None:
    reading = read(people=f"{MORE_HEAD}\n{row}\np-09,Bo,,,,,,,,,\n")
    assert [each.removeprefix("program/people.csv:")[: len(found)] for each in told(reading)] == [
        found
    ]
    assert list(reading.program.people) == ["p-09"]


def test_the_rows_of_a_person_with_a_fault_are_no_faults_of_their_own(read) -> None:
    reading = read(
        people=f"{PEOPLE_HEAD}\np-01,Ada,,,,,pregnacy,\n",
        attendance=f"{ATTENDANCE_HEAD}\n2026-10-01,p-01,wide-ribs,ready,,,\n",
    )
    assert len(told(reading)) == 1
    assert reading.known.unreadable_people == {"p-01"}
    assert reading.program.attendance == ()


def test_of_two_rows_with_one_id_neither_counts(read) -> None:
    people = f"{PEOPLE_HEAD}\np-01,Ada,,,,,,\np-02,Bo,,,,,,\nP-01,Ada,,,,,pregnancy,\n"
    reading = read(people=people)
    assert told(reading)[0].startswith('program/people.csv:4:1: K107 row-doubled: "P-01" has a row')
    assert list(reading.program.people) == ["p-02"]
    assert reading.known.unreadable_people == {"p-01"}


@pytest.mark.parametrize(
    ("name", "rows", "place"),
    [
        (
            "people",
            f'{MORE_HEAD}\np-01,Ada,,,,,,"Walk,,,\np-02,Bo,,,,,,,,,\n'
            'p-03,Cy,,,,,pregnancy,far",pregnancy 2026-01-01,,\n',
            "2:8",
        ),
        (
            "results",
            f'{RESULTS_HEAD}\n2026-10-01,p-01,breath-hold-seconds,,30,,,"calm,\n'
            "2026-10-08,p-01,breath-hold-seconds,,5,,,,\n"
            '2026-10-09,p-01,breath-hold-seconds,,6,,,so",\n',
            "2:8",
        ),
    ],
)
def test_stray_quotes_that_swallow_rows_are_told(read, name: str, rows: str, place: str) -> None:
    reading = read(**({"people": f"{PEOPLE_HEAD}\np-01,Ada,,,,,,\n"} | {name: rows}))
    assert told(reading)[0].startswith(f"program/{name}.csv:{place}: K104 row-unreadable: the cell")
    assert (reading.program.results, "p-02" in reading.program.people) == ((), False)


def test_a_remark_on_several_lines_is_a_remark(read) -> None:
    note = "calm\nthen quick, light, and a little shy, as before"
    people = f'{PEOPLE_HEAD}\np-01,Ada,,,,,,"{note}"\n'
    reading = read(people=people)
    assert (told(reading), reading.program.people["p-01"].goal) == ([], note)


@pytest.mark.parametrize(("year", "warned"), [(2007, False), (2008, True), (2015, True)])
def test_somebody_who_may_be_under_age_is_warned_of_and_kept(read, year: int, warned: bool) -> None:
    reading = read(people=f"{PEOPLE_HEAD}\np-01,Ada,{year},,,,,\n")
    assert ["K108" in each for each in told(reading)] == [True] * warned
    assert "p-01" in reading.program.people


def test_results_are_read_with_every_kind_of_value(read) -> None:
    rows = (
        '2026-10-01,P-01,breath-hold-seconds,,"12,5",s,,calm,m1\n'
        "2026-10-01,p-01,reach-cm,Left,-3,,broad-ribs,,\n"
        "2026-10-01,p-01,first-mover,,Chest,,,,\n"
        "2026-10-01,p-01,known,,some,,,,\n"
        "2026-10-01,p-01,hold,,9,s,short-hold,,\n"
    )
    reading = read(results=f"{RESULTS_HEAD}\n{rows}")
    day = date(2026, 10, 1)
    assert told(reading) == []
    assert reading.program.results == (
        Result(day, "p-01", "breath-hold-seconds", None, 12.5, "s", "", "calm", "m1"),
        Result(day, "p-01", "reach-cm", Side.LEFT, -3.0, "cm", "wide-ribs"),
        Result(day, "p-01", "first-mover", None, "chest", "chest, belly or both"),
        Result(day, "p-01", "known", None, "some"),
        Result(day, "p-01", "hold", None, 9.0, "s", "short-hold"),
    )


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("2026-10-01,p-03,first-mover,,chest,,,,", '2: K105 name-unlisted: "p-03" under "person"'),
        (
            "2026-10-01,tern,first-mover,,chest,,,,",
            '2: K105 name-unlisted: a name under "person" is',
        ),
        ("2026-10-01,bo tern,first-mover,,chest,,,,", "2: K105 name-unlisted: a name stands under"),
        ("2026-10-01,p-01,first-moves,,chest,,,,", '3: K105 name-unlisted: "first-moves" under'),
        ("2026-10-01,p-01,first-mover,,feet,,,,", '5: K106 value-unsound: "feet" under "value"'),
        ("2026-10-01,p-01,known,,maybe,,,,", '5: K106 value-unsound: "maybe" under "value"'),
        ("2026-10-01,p-01,hold,,long,,,,", '5: K106 value-unsound: "long" under "value" is no num'),
        ("2026-10-01,p-01,hold,,,,,,", '5: K106 value-unsound: the cell under "value" is empty'),
        ("2026-10-01,p-01,hold,,nan,,,,", '5: K106 value-unsound: "nan" under "value" is no num'),
        ("2026-10-01,p-01,hold,,125000,,,,", '5: K106 value-unsound: "125000" under "value" is o'),
        ("2026-10-01,p-01,hold,,12,cm,,,", '6: K106 value-unsound: "cm" is not the unit of "hold"'),
        ("2026-10-01,p-01,reach-cm,,12,cm,,,", '4: K106 value-unsound: "reach-cm" is read on each'),
        ("2026-10-01,p-01,reach-cm,both,12,cm,,,", '4: K106 value-unsound: "both" under "side" is'),
        ("2026-10-01,p-01,hold,left,12,s,,,", '4: K106 value-unsound: "hold" has no sides'),
        ("2026-10-01,p-01,hold,,12,s,wide-ribs,,", '7: K106 value-unsound: the lesson "wide-ribs"'),
        ("2026-10-01,p-01,hold,,12,s,wide-rib,,", '7: K105 name-unlisted: "wide-rib" under'),
        ("2026-11-27,p-01,hold,,12,s,,,", "1: K106 value-unsound: 2026-11-27 is still to come"),
        ("1975-01-01,p-01,hold,,12,s,,,", "1: K106 value-unsound: 1975-01-01 is before 1990"),
        ("2026-02-30,p-01,hold,,12,s,,,", "1: K106 value-unsound: 2026-02-30 is no day"),
        ("24.11.2026,p-01,hold,,12,s,,,", '1: K106 value-unsound: "24.11.2026" is not written'),
    ],
)
def test_a_result_with_a_fault_is_told_at_its_cell(read, row: str, found: str) -> None:
    good = "2026-10-01,p-02,hold,,9,s,,,"
    reading = read(results=f"{RESULTS_HEAD}\n{row}\n{good}\n")
    (finding,) = told(reading)
    assert finding.startswith(f"program/results.csv:2:{found}")
    assert [each.person_id for each in reading.program.results] == ["p-02"]


def test_a_day_before_the_person_was_born_is_told(read) -> None:
    reading = read(
        people=f"{PEOPLE_HEAD}\np-01,Ada,2001,,,,,\n",
        results=f"{RESULTS_HEAD}\n2000-01-01,p-01,hold,,9,s,,,\n",
    )
    assert '2000-01-01 is before "p-01" was born' in told(reading)[0]


def test_attendance_is_read_and_former_ids_of_lessons_count(read) -> None:
    rows = "2026-10-01,p-01,broad-ribs,READY,12,20,m1\n2026-10-02,p-01,wide-ribs,easier\n"
    reading = read(attendance=f"{ATTENDANCE_HEAD}\n{rows}")
    assert told(reading) == []
    assert reading.program.attendance == (
        Attendance(date(2026, 10, 1), "p-01", "wide-ribs", Outcome.READY, 12, 20, "m1"),
        Attendance(date(2026, 10, 2), "p-01", "wide-ribs", Outcome.EASIER),
    )


@pytest.mark.parametrize(
    ("row", "found"),
    [
        ("2026-10-01,p-01,,ready,,,", '3: K106 value-unsound: the cell under "lesson" is empty'),
        (
            "2026-10-01,p-01,wide-ribs,done,,,",
            '4: K106 value-unsound: "done" under "outcome" is no',
        ),
        ("2026-10-01,p-01,wide-ribs,ready,6.5,,", '5: K106 value-unsound: "6.5" under "breaths'),
        ("2026-10-01,p-01,wide-ribs,ready,,-1,", '6: K106 value-unsound: "-1" under "rest sec'),
    ],
)
def test_an_attendance_with_a_fault_is_told_at_its_cell(read, row: str, found: str) -> None:
    (finding,) = told(read(attendance=f"{ATTENDANCE_HEAD}\n{row}\n"))
    assert finding.startswith(f"program/attendance.csv:2:{found}")


def test_a_mark_that_stands_twice_counts_once(read) -> None:
    row = "2026-10-01,p-01,wide-ribs,ready,,,m1\n"
    reading = read(attendance=f"{ATTENDANCE_HEAD}\n{row}{row}")
    assert told(reading)[0].startswith("program/attendance.csv:3:7: K107 row-doubled: the mark")
    assert len(reading.program.attendance) == 1


def test_rows_beside_a_file_of_people_that_can_not_be_read_are_no_faults(read) -> None:
    reading = read(
        people="name\nAda\n", attendance=f"{ATTENDANCE_HEAD}\n2026-10-01,p-01,wide-ribs,ready,,,\n"
    )
    assert {each.rule.id for each in reading.findings} == {"K102"}
    assert reading.program.people == {}
    assert reading.program.attendance == ()


def test_two_files_of_the_same_rows_are_refused(course, write_program: WriteProgram) -> None:
    folder = write_program({"results.csv": RESULTS_HEAD, "results.xlsx": ""})
    found = [str(each) for each in read_records(folder, course, TODAY).findings]
    assert found == [
        'program/results.xlsx:1:1: K101 table-unreadable: "results.csv" is there as well; keep all '
        "rows in one of them."
    ]


def test_people_may_be_kept_in_a_spreadsheet(course, write_program: WriteProgram) -> None:
    folder = write_program()
    (folder / "people.csv").unlink()
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["ID", "Display name", "Birth year", "Height (cm)", "Conditions", "Hands on"])
    sheet.append(["p-01", "Ada Quill", 1980, 165.5, "pregnancy", date(2026, 10, 2)])
    sheet.append(["p-02", "Bo Tern", 1980.5, None, None, None])
    book.save(folder / "people.xlsx")
    reading = read_records(folder, course, TODAY)
    person = reading.program.people["p-01"]
    assert (person.birth_year, person.height_cm) == (1980, 165.5)
    assert (person.conditions, person.hands_on) == (("pregnancy",), date(2026, 10, 2))
    assert [str(each) for each in reading.findings] == [
        'program/people.xlsx:3:3: K106 value-unsound: "1980.5" under "birth year" is no whole '
        "number; round it."
    ]


def test_an_empty_program_says_what_to_make(course, tmp_path) -> None:
    found = [str(each) for each in read_records(tmp_path, course, TODAY).findings]
    assert found == [
        f"{tmp_path.name}/people.csv:1:1: K101 table-unreadable: there is no such file; make it, "
        "one row a person."
    ]


def test_the_people_of_the_other_tests_are_sound(read) -> None:
    assert told(read(people=PEOPLE)) == []
