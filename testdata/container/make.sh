#!/bin/sh
# Makes small films of every kind that package container knows, and lists their pictures
# with ffprobe. Needs Debian's ffmpeg.
set -eu
cd "$(dirname "$0")"
make() { # name, then ffmpeg's options
	name=$1
	shift
	ffmpeg -v error -y -f lavfi -i testsrc=size=96x64:rate=30:duration=0.5 -f lavfi -i sine=duration=0.5:sample_rate=8000 \
		-pix_fmt yuv420p -c:a aac -b:a 16k -fflags +bitexact -flags +bitexact "$@" "$name"
}
make plain.mp4 -c:v libx264 -bf 0
make reordered.mp4 -c:v libx264 -bf 2 -g 8 -movflags +faststart
make fragments.mp4 -c:v libx264 -bf 2 -g 8 -movflags +frag_keyframe+empty_moov+default_base_moof
make old-fragments.mov -c:v libx264 -bf 0 -g 5 -movflags +frag_keyframe+empty_moov
make hevc.mp4 -c:v libx265 -x265-params log-level=none -tag:v hvc1 -an
make vp9.mp4 -c:v libvpx-vp9 -an
make av1.mp4 -c:v libaom-av1 -cpu-used 8 -an
make vp8.webm -c:v libvpx -c:a libvorbis
make vp9-live.webm -c:v libvpx-vp9 -an -f webm -live 1
make h264.mkv -c:v libx264 -bf 2 -g 8
make uneven.mp4 -c:v libx264 -vf "select='not(mod(n,3))+eq(n,7)'" -fps_mode vfr -an
for turn in 90 180 270; do
	ffmpeg -v error -y -i plain.mp4 -c copy -an -metadata:s:v rotate=$turn -fflags +bitexact -flags +bitexact turned-$turn.mov
done
{
	echo '{'
	comma=
	for file in *.mp4 *.mov *.webm *.mkv; do
		printf '%s"%s": ' "$comma" "$file"
		ffprobe -v error -select_streams v -show_entries packet=pts_time,flags,pos,size:stream=width,height:stream_side_data=rotation -of json=compact=1 "$file"
		comma=,
	done
	echo '}'
} >packets.json
