#!/bin/sh
# A job's cut list, checks, elevation and booklet by curl, one number from flat fields, and what a problem looks like.
# Usage: curl.sh JOB.json [ADDRESS] [FOLDER]
set -eu
job=$1
service=${2:-http://127.0.0.1:8000}
folder=${3:-.}

post() { # PATH FILE: send the job, keep the answer; a problem is printed and ends the script
  code=$(curl --silent --show-error --output "$2" --write-out '%{http_code}' \
    --header 'Content-Type: application/json' --data-binary "@$job" "$service$1")
  if [ "$code" != 200 ]; then
    printf '%s answered %s:\n' "$1" "$code" >&2
    cat "$2" >&2
    exit 1
  fi
}

post '/v1/parts?as=csv' "$folder/parts.csv"
post '/v1/checks?as=csv' "$folder/checks.csv"
post '/v1/drawings/elevation?as=svg' "$folder/elevation.svg"
post /v1/booklet "$folder/booklet.pdf"

if cut -d, -f1 "$folder/checks.csv" | grep -q '^stop$'; then
  echo 'DO NOT CUT: a check says stop; see checks.csv.'
fi

printf 'The top of a plain cabinet 600 mm wide is '
curl --silent --show-error --fail-with-body --get "$service/v1/value" \
  --data-urlencode part=top --data-urlencode field=length \
  --data-urlencode width=600 --data-urlencode height=720 --data-urlencode depth=300 --data-urlencode thickness=18
echo ' mm long.'
