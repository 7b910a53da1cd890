#!/usr/bin/env bash
# The sample in four shares on two nodes of a real Slurm on this machine: one task is killed and requeued, the rest is
# assembled, and the bytes are those of one run. Needs root, for Slurm's daemons; installs them. Not part of the usual
# tests. Usage: tests/slurm/run.sh [PANELS]
set -euo pipefail
root=$(cd "$(dirname "$0")/../.." && pwd)
panels=${1:-60}
[ "$(id -u)" -eq 0 ] || { echo "run as root: Slurm's daemons start as root" >&2; exit 64; }
for package in slurmctld slurmd slurm-client munge; do
  dpkg-query -W "$package" >/dev/null 2>&1 || missing+=("$package")
done
[ -z "${missing:-}" ] || apt-get install -y -qq --no-install-recommends "${missing[@]}"
[ -x "$root/build/release/bin/sample-export" ] || bash "$root/.ci/build" release

work=$(mktemp -d)
chmod 755 "$work"
host=$(hostname -s)
cleanup() {
  for daemon in slurmd1 slurmd2 slurmctld munged; do
    [ -f "$work/$daemon.pid" ] && kill "$(cat "$work/$daemon.pid")" 2>/dev/null
  done
  sleep 1
  rm -rf "$work"
}
trap cleanup EXIT

mkdir -p "$work/state" "$work/spool1" "$work/spool2" "$work/munge"
chown munge: "$work/munge"
[ -f /etc/munge/munge.key ] || /usr/sbin/mungekey
chown munge: /etc/munge/munge.key
runuser -u munge -- /usr/sbin/munged --force --socket="$work/munge/socket" --pid-file="$work/munge/munged.pid" \
  --log-file="$work/munge/log" --seed-file="$work/munge/seed"
ln -s "$work/munge/munged.pid" "$work/munged.pid"

export SLURM_CONF=$work/slurm.conf
cat > "$SLURM_CONF" <<CONF
ClusterName=sample
SlurmctldHost=$host
SlurmUser=root
AuthType=auth/munge
AuthInfo=socket=$work/munge/socket
CredType=cred/munge
SlurmctldPort=16817
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd%n.pid
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool%n
SlurmctldLogFile=$work/slurmctld.log
SlurmdLogFile=$work/slurmd%n.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SwitchType=switch/none
SchedulerType=sched/builtin
SelectType=select/linear
JobRequeue=1
ReturnToService=2
MpiDefault=none
NodeName=1 NodeHostname=$host NodeAddr=127.0.0.1 Port=16818 CPUs=1
NodeName=2 NodeHostname=$host NodeAddr=127.0.0.1 Port=16819 CPUs=1
PartitionName=all Nodes=1,2 Default=YES MaxTime=INFINITE State=UP
CONF
/usr/sbin/slurmctld -i
/usr/sbin/slurmd -N 1
/usr/sbin/slurmd -N 2
for _ in $(seq 30); do
  [ "$(sinfo -h -t idle -o %D 2>/dev/null)" = 2 ] && break
  sleep 1
done
sinfo

cp "$root"/sample_project/{settings.json,rates.csv,carbon_targets.csv,confirmations.csv,people.csv,materials.csv,lifting.csv} "$work"
cp -r "$root/sample_project/evidence" "$work"
"$root/build/release/bin/sample-export" --panels "$panels" --out "$work/sample.ifcxml"
export PANEL_DOSSIER=$root/build/release/bin/panel-dossier
export PANEL_DOSSIER_OPTIONS="--build-time 2026-11-25T02:00:00Z"
script=$root/sample_project/nightly/shares.slurm
cd "$work"
id=$(sbatch --parsable --array=1-4 "$script" "$work/sample.ifcxml" "$work/out")
for _ in $(seq 60); do
  [ -n "$(squeue -h -j "${id}_2" -t running)" ] && break
  sleep 0.5
done
sleep 1
scontrol requeue "${id}_2"
echo "task 2 is killed and requeued"
last=$(sbatch --parsable --dependency="afterok:$id" "$script" "$work/sample.ifcxml" "$work/out")
until [ -z "$(squeue -h -j "$last" 2>/dev/null)" ]; do sleep 1; done
restarts=$(scontrol show job "${id}_2" 2>/dev/null | grep -o 'Restarts=[0-9]*' || true)
echo "task 2: ${restarts:-gone from the queue}"
grep -h "share \|results of panels" "$work"/slurm-*.out || true

status=0
"$PANEL_DOSSIER" build "$work/sample.ifcxml" --out "$work/one" --no-store --quiet $PANEL_DOSSIER_OPTIONS >/dev/null || status=$?
for file in "$work"/one/*; do
  case $file in *.pdf) continue ;; esac  # signed with another demonstration key
  cmp "$file" "$work/out/$(basename "$file")"
done
echo "the assembled build has the bytes of one run (exit status $status)"
