"""The fits of a job over HTTP and in process."""

from casewright.api import fits, plan


def test_both_ways_alike(client, example):
    answer = client.post("/v1/fits", json=example)
    assert answer.status_code == 200
    assert answer.json == fits(example)
    assert answer.json["fits"] == plan(example)["fits"]


def test_figures_are_in_the_job_s_units(client, small):
    """The same job in inches and millimetres: 0.2 mm is 0.007874 in."""
    small["cabinets"][0]["space"] = {"loose_shelves": 1}
    small["shop"] = {"accuracy": {"crosscut": "0.2 mm"}}
    (metric,) = [one for one in client.post("/v1/fits", json=small).json["fits"] if one["kind"] == "shelf-play"]
    for material in small["materials"].values():
        material["thickness"] = f"{material['thickness']} mm"
    cabinet = small["cabinets"][0]
    for key in ("width", "height", "depth"):
        cabinet[key] = f"{cabinet[key]} mm"
    for key in ("top_inset", "bottom_inset"):
        cabinet["case"][key] = f"{cabinet['case'][key]} mm"
    small["units"] = "in"
    (imperial,) = [one for one in client.post("/v1/fits", json=small).json["fits"] if one["kind"] == "shelf-play"]
    assert abs(imperial["worst"] * 25.4 - metric["worst"]) < 1e-4
    assert metric["largest"][0]["half_width"] == 0.2


def test_an_accuracy_that_cannot_be_is_refused(client, small):
    small["shop"] = {"accuracy": {"rip": -0.1}}
    answer = client.post("/v1/fits", json=small)
    assert answer.status_code == 400
    assert "/shop/accuracy/rip" in str(answer.json)
