"""The example jobs: the first to read comes first, and each is handed out anew."""

from casewright.api.use.examples import FIRST, example_job, examples


def test_the_first_example_is_first_and_the_rest_follow_by_name():
    names = [example.name for example in examples()]
    assert names[0] == FIRST
    assert names[1:] == sorted(names[1:])
    assert len(names) >= 3


def test_a_job_handed_out_may_be_changed():
    example_job()["cabinets"].clear()
    assert example_job()["cabinets"]
