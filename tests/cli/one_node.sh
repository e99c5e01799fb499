# SPDX-License-Identifier: MIT
# shellcheck shell=bash
# A Slurm of one node without systemd in $PWD/slurm, as one user, for a test: munged, slurmctld, slurmd on ports of their
# own. start_node fails where they are not installed or do not come up; stop_node ends what it started.
start_node() {
    local name port=$((20000 + $$ % 20000)) dir=$PWD/slurm tries
    name=$(hostname -s)
    command -v munged slurmctld slurmd sbatch >/dev/null 2>&1 || return 1
    [ "$(id -u)" -eq 0 ] || return 1
    mkdir -p "$dir/state" "$dir/spool"
    chmod 755 "$dir"
    head -c 1024 /dev/urandom >"$dir/key"
    chmod 600 "$dir/key"
    printf '%s\n' ClusterName=one "SlurmctldHost=$name(127.0.0.1)" SlurmUser=root "SlurmctldPort=$port" \
        "SlurmdPort=$((port + 1))" AuthType=auth/munge "AuthInfo=socket=$dir/socket" CredType=cred/munge \
        "StateSaveLocation=$dir/state" "SlurmdSpoolDir=$dir/spool" "SlurmctldPidFile=$dir/slurmctld.pid" \
        "SlurmdPidFile=$dir/slurmd.pid" "SlurmctldLogFile=$dir/slurmctld.log" "SlurmdLogFile=$dir/slurmd.log" \
        ProctrackType=proctrack/linuxproc TaskPlugin=task/none SchedulerType=sched/builtin \
        "NodeName=$name NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN" \
        "PartitionName=all Nodes=ALL Default=YES State=UP" >"$dir/slurm.conf"
    export SLURM_CONF=$dir/slurm.conf
    munged --force --socket="$dir/socket" --key-file="$dir/key" --pid-file="$dir/munged.pid" \
        --log-file="$dir/munged.log" --seed-file="$dir/seed" >/dev/null 2>&1 && slurmctld && slurmd || return 1
    for tries in $(seq 60); do
        sinfo --noheader --states=idle 2>/dev/null | grep -q idle && return 0
        sleep 0.5
    done
    return 1
}

stop_node() {
    local one
    for one in slurmd slurmctld munged; do
        [ ! -s "slurm/$one.pid" ] || kill "$(cat "slurm/$one.pid")" 2>/dev/null
    done
    sleep 1
}
