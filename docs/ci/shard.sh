#!/bin/sh
# One share of a large repository of patterns, for any CI system that runs a job several times with a
# number: shard.sh K N checks share K of N and leaves JUnit XML. A file stays in its share when others
# are put in or taken out. GitLab gives the numbers as CI_NODE_INDEX and CI_NODE_TOTAL, CircleCI as
# CIRCLE_NODE_INDEX (from nought) and CIRCLE_NODE_TOTAL, GitHub as whatever its matrix has.
set -eu
share=$1
of=$2
exec loopwright check --shard "$share/$of" --format junit -o "patterns-$share-of-$of.xml"
