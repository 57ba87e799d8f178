"""When steps begin and end for one person, worked out on paper."""

from fractions import Fraction

from casewright.api.engine.work.schedule import ranges, schedule_of, time_text
from casewright.sdk.model import Action, Machine, Operation, Setting, Stage


def step(number, minutes, *needs, action=Action.FIT):
    return Operation(number, Stage.GLUE, Machine.BY_HAND, action, Setting(), (), needs, minutes=minutes)


def wait(number, minutes, *needs):
    return step(number, minutes, *needs, action=Action.WAIT)


STEPS = (step(1, 10), wait(2, 60, 1), step(3, 5, 2), step(4, 20, 1), wait(5, 30, 4), step(6, 10, 3, 5))


def times(schedule):
    return {one.number: (one.start, one.finish) for one in schedule.steps}


def test_work_goes_on_while_glue_is_waited_for():
    # 1 by hand to 10. Glue 2 from 10 to 70; meanwhile 4 from 10 to 30, whose glue 5 is over at 60. Nothing to do till
    # 70: then 3 to 75 and 6 to 85. By hand 10 + 5 + 20 + 10.
    schedule = schedule_of(STEPS)
    assert times(schedule) == {1: (0, 10), 2: (10, 70), 3: (70, 75), 4: (10, 30), 5: (30, 60), 6: (75, 85)}
    assert (schedule.finish, schedule.hands_on, schedule.untimed) == (85, 45, 0)


def test_what_is_done_takes_no_time_and_is_waited_for_no_more():
    # Left are 3 to 5, 4 to 25, glue 5 to 55, 6 to 65.
    schedule = schedule_of(STEPS, frozenset({1, 2}))
    assert times(schedule) == {3: (0, 5), 4: (5, 25), 5: (25, 55), 6: (55, 65)}
    assert (schedule.finish, schedule.hands_on) == (65, 35)


def test_all_done_leaves_nothing():
    schedule = schedule_of(STEPS, frozenset(range(1, 7)))
    assert (schedule.steps, schedule.finish, schedule.meanwhile) == ((), 0, ())


def test_meanwhile_is_what_waits_for_no_glue_that_is_still_wet():
    # During 2 step 4 can be done; during 5, from 30 to 60, nothing: 3 and 6 wait for 2, which is over at 70.
    assert [(one.wait, one.steps) for one in schedule_of(STEPS).meanwhile] == [(2, (4,))]


def test_a_glue_up_that_is_begun_is_named_to_its_clamps():
    # One wait, 38 steps beside it, then a glue-up of four steps: the list ends at its clamps, not at its glue.
    by_hand = [step(number, None) for number in range(2, 40)]
    glue = [step(40, None, action=Action.GLUE), step(41, None, 40, action=Action.INSERT)]
    glue += [step(42, None, 41, action=Action.INSERT), step(43, None, 42, action=Action.CLAMP), step(44, None)]
    (meanwhile,) = schedule_of([wait(1, 60), *by_hand, *glue]).meanwhile
    assert meanwhile.steps == tuple(range(2, 44))


def test_of_steps_that_can_be_done_the_first_by_number_is():
    # Both wait for 1; 2 is taken first although 3 is named by 4 before it.
    schedule = schedule_of((step(1, 1), step(2, 7, 1), step(3, 2, 1), step(4, 1, 3)))
    assert times(schedule) == {1: (0, 1), 2: (1, 8), 3: (8, 10), 4: (10, 11)}


def test_a_wait_begins_when_what_it_waits_for_ends_though_hands_are_busy():
    # 2 ends at 11; 3 waits from then to 21, though 4 keeps the hands from 1 to 101.
    schedule = schedule_of((step(1, 1), wait(2, 10, 1), wait(3, 10, 2), step(4, 100, 1)))
    assert times(schedule)[3] == (11, 21)
    assert schedule.finish == 101


def test_steps_without_a_time_are_counted_and_take_none():
    schedule = schedule_of((step(1, None), wait(2, 60, 1), step(3, None, 2)))
    assert (schedule.finish, schedule.hands_on, schedule.untimed) == (60, 0, 2)


def test_times_and_numbers_in_words():
    assert [time_text(n) for n in (0, 1, 59, 60, 80, 1440, Fraction(1, 3))] == [
        "0 min", "1 min", "59 min", "1 h", "1 h 20 min", "24 h", "1 min",
    ]  # fmt: skip
    assert ranges((7,)) == "step 7"
    assert ranges((7, 8, 9, 12, 20, 21)) == "steps 7 to 9, 12 and 20 to 21"
